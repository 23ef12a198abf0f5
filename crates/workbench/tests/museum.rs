//! Old files: each file in `tests/museum` was written by some version of the program, and every later one
//! must read it as it was meant.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;
use std::path::Path;

use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::{
    End, Hand, Hold, Keep, MeshUnit, NodeId, Path as Centreline, ProvedOn, RotationSetting, Seam, Shape, UpAxis,
};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::file::{read_part, read_recovery, read_shop, read_system, write_shop, write_system};

fn museum(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/museum");
    fs::read_to_string(folder.join(name)).unwrap()
}

#[test]
fn a_part_by_vertices_of_version_1() {
    let part = read_part(&museum("part-v1-vertices.ron"), "museum").unwrap();
    assert_eq!((part.name.as_str(), part.units), ("Museum piece, by vertices", LengthUnit::Inch));
    assert_eq!((part.tube.od.mm(), part.tube.wall.mm(), part.tube.seam), (60.3, 2.0, Seam::Welded));
    let tooling = (part.tooling.die.as_deref(), part.tooling.clamp.map(|clamp| clamp.mm()));
    assert_eq!(tooling, (Some("60.3 on 90.5"), Some(110.0)));
    assert_eq!((part.stock.lead.mm(), part.stock.tail.mm()), (25.0, 0.0));
    let Centreline::Vertices(path) = &part.path else { panic!("it was drawn by vertices") };
    assert_eq!(path.points()[3].coords.as_slice(), [600.0, 500.0, 350.0]);
    assert_eq!(path.clr().iter().map(|clr| clr.mm()).collect::<Vec<_>>(), [90.5, 120.6]);
}

#[test]
fn a_part_by_rows_of_version_1() {
    let part = read_part(&museum("part-v1-bends.ron"), "museum").unwrap();
    let Centreline::Bends(path) = &part.path else { panic!("it was drawn by rows") };
    assert_eq!(path.rows()[0].angle, Angle::HALF_TURN, "a U-bend is half a turn to the bit");
    assert_eq!((path.rows()[1].rotation.degrees(), path.rows()[1].straight.mm()), (-90.0, 125.5));
    assert_eq!((path.start().origin.z, path.start().normal.y, path.tail().mm()), (30.0, -1.0, 150.25));
}

#[test]
fn a_system_of_version_1() {
    let text = museum("system-v1.ron");
    let system = read_system(&text, "museum").unwrap();
    assert_eq!((system.name(), system.units(), system.active().number()), ("Museum system", LengthUnit::Inch, 2));
    let tubes: Vec<_> = system.tubes().iter().map(|tube| (tube.id.number(), tube.name(), tube.hidden)).collect();
    assert_eq!(tubes, [(5, "Downpipe", true), (2, "Tail", false)]);
    let (downpipe, tail) = (&system.tubes()[0].part, &system.tubes()[1].part);
    assert_eq!((downpipe.units, tail.units), (LengthUnit::Inch, LengthUnit::Inch), "one unit for the whole");
    assert_eq!((downpipe.tooling.from, downpipe.tooling.hand), (End::Finish, Some(Hand::Left)));
    assert_eq!((tail.tooling.from, tail.tooling.hand), (End::Start, None));
    assert_eq!(downpipe.tooling.seam_start.map(|start| start.clock().degrees_exact()), Some(-90.0));
    let places: Vec<_> = downpipe.nodes.ids(4).into_iter().map(NodeId::number).collect();
    assert_eq!((places, downpipe.nodes.next(4)), (vec![3, 7, 1, 0], 8), "its places are known as they were");
    assert_eq!(tail.nodes.ids(4).into_iter().map(NodeId::number).collect::<Vec<_>>(), [0, 1, 2, 3]);
    assert_eq!((downpipe.pieces.len(), downpipe.pieces[0].from), (1, End::Finish));
}

#[test]
fn a_system_of_version_2() {
    let (older, system) = (museum("system-v1.ron"), museum("system-v2.ron"));
    let [older, system] = [older, system].map(|text| read_system(&text, "museum").unwrap());
    let (was, is) = (&older.tubes()[0].part, &system.tubes()[0].part);
    let tolerance = is.tooling.tolerance;
    let chosen = (tolerance.angle().map(Angle::degrees_exact), tolerance.length().map(|length| length.mm()));
    assert_eq!(chosen, (Some(0.75), Some(1.5)));
    assert!(is.tooling.as_planned && is.pieces[0].as_measured);
    // Nobody was asked in version 1.
    assert!(!was.tooling.tolerance.is_own() && !was.pieces[0].as_measured);
}

#[test]
fn a_system_of_version_3() {
    let (older, system) = (museum("system-v2.ron"), museum("system-v3.ron"));
    let [older, system] = [older, system].map(|text| read_system(&text, "museum").unwrap());
    let keep = &system.tubes()[0].part.keep;
    assert_eq!((keep.side, keep.held().len()), (End::Finish, 2));
    assert_eq!((keep.of(NodeId::new(1)), keep.of(NodeId::new(3))), (Hold::PLACE, Hold::BOTH));
    assert_eq!(system.tubes()[1].part.keep, Keep::default());
    // Nothing was held before.
    assert!(older.tubes().iter().all(|tube| tube.part.keep == Keep::default()));
    let held = museum("system-v3.ron").replacen("at: 1,", "at: 4,", 1);
    let problem = read_system(&held, "museum").unwrap_err().to_string();
    assert!(
        problem.contains("what is held of the tube \u{201c}Downpipe\u{201d}") && problem.contains("at 4"),
        "{problem}"
    );
}

/// The floor lies at zero unless the file says so, and a height out of reach is told on its line.
#[test]
fn the_floor_of_a_system_of_version_3() {
    let text = museum("system-v3.ron");
    assert_eq!(read_system(&text, "museum").unwrap().floor().mm(), 0.0);
    let laid = text.replacen("active: 2,", "active: 2,\n    floor_mm: -120.5,", 1);
    let system = read_system(&laid, "museum").unwrap();
    assert_eq!(system.floor().mm(), -120.5);
    assert_eq!(write_system(&system), laid.replacen("system/3", "system/4", 1));
    let beyond = laid.replacen("-120.5", "2e7", 1);
    let problem = read_system(&beyond, "museum").unwrap_err();
    assert!(problem.to_string().contains("20000000 is no length"), "{problem}");
    assert_eq!(problem.line, Some(7), "{problem}");
    assert_eq!(read_system(&museum("system-v2.ron"), "museum").unwrap().floor().mm(), 0.0);
}

#[test]
fn work_that_was_not_saved_of_version_3() {
    let recovered = read_recovery(&museum("recovery-v3.ron"), "museum").unwrap();
    assert_eq!(recovered.file.as_deref(), Some(Path::new("/parts/museum.ron")));
    assert_eq!(recovered.system, read_system(&museum("system-v2.ron"), "museum").unwrap());
}

#[test]
fn a_system_of_version_4() {
    let (older, system) = (museum("system-v3.ron"), museum("system-v4.ron"));
    let [older, system] = [older, system].map(|text| read_system(&text, "museum").unwrap());
    assert!(older.obstacles().is_empty() && older.next_obstacle() == 1, "nothing stood around tubes before");
    let told: Vec<_> = system.obstacles().iter().map(|one| (one.id.number(), one.name.as_str(), one.kind)).collect();
    let moving = ObstacleKind::Moving { travel: Length::from_mm(40.0) };
    let wanted = [
        (7, "Chassis", ObstacleKind::Body),
        (2, "Axle", moving),
        (3, "Fuel line", ObstacleKind::FuelLine),
        (4, "Road", ObstacleKind::Ground),
        (5, "Loom", ObstacleKind::Wiring),
    ];
    assert_eq!((told.as_slice(), system.next_obstacle()), (&wanted[..], 8));
    let [chassis, axle, line, road, loom] = system.obstacles() else { panic!("there are five") };
    let Shape::Mesh(source) = &chassis.shape else { panic!("it is a mesh") };
    assert_eq!((source.file.as_str(), source.unit, source.up), ("chassis.stl", MeshUnit::Inch, UpAxis::Y));
    assert!(source.fingerprint.starts_with("af1349b9") && source.packed.is_none());
    assert_eq!((chassis.hidden, chassis.locked, chassis.clearance), (true, true, Some(Length::from_mm(30.0))));
    let cylinder = Shape::Cylinder { diameter: Length::from_mm(60.0), length: Length::from_mm(1200.0) };
    assert_eq!((&axle.shape, axle.placement.tangent.y), (&cylinder, 1.0));
    assert_eq!(line.shape, Shape::Cuboid([400.0, 12.5, 12.5].map(Length::from_mm)));
    assert_eq!((&road.shape, road.placement.origin.z), (&Shape::Plane, -120.0));
    let Shape::Mesh(source) = &loom.shape else { panic!("it is a mesh") };
    assert_eq!(source.packed.as_deref(), Some(&b"v 1 2 3\n"[..]));
    // Mistakes are told.
    let text = museum("system-v4.ron");
    for (from, to, said) in [
        ("id: 3,", "id: 7,", "the id of the obstacle \u{201c}Fuel line\u{201d}"),
        ("name: \"Axle\"", "name: \"Road\"", "the name of the obstacle \u{201c}Road\u{201d}"),
        ("diameter_mm: 60.0", "diameter_mm: 0.0", "the diameter of the cylinder"),
        ("diAxIDIgMwo=", "di!", "no base64"),
        ("travel_mm: 40.0", "travel_mm: -1.0", "the travel"),
    ] {
        let spoilt = text.replacen(from, to, 1);
        assert_ne!(spoilt, text, "{from}");
        let problem = read_system(&spoilt, "museum").unwrap_err().to_string();
        assert!(problem.contains(said), "{problem}");
    }
}

#[test]
fn work_that_was_not_saved_of_version_4() {
    let recovered = read_recovery(&museum("recovery-v4.ron"), "museum").unwrap();
    assert_eq!(recovered.file.as_deref(), Some(Path::new("/parts/museum.ron")));
    assert_eq!(recovered.system, read_system(&museum("system-v3.ron"), "museum").unwrap());
}

/// While version 4 is the newest, it is also what is written.
#[test]
fn systems_are_written_as_in_the_museum() {
    let text = museum("system-v4.ron");
    assert_eq!(write_system(&read_system(&text, "museum").unwrap()), text);
}

#[test]
fn a_part_of_version_1_is_the_system_of_one_tube() {
    for name in ["part-v1-vertices.ron", "part-v1-bends.ron", "part-v1-pieces.ron"] {
        let text = museum(name);
        let system = read_system(&text, "museum").unwrap();
        let part = read_part(&text, "museum").unwrap();
        assert_eq!((system.tubes().len(), system.name(), system.title()), (1, "", part.name.as_str()));
        assert_eq!((&*system.active_tube().part, system.units()), (&part, part.units));
        let again = read_system(&write_system(&system), "written").unwrap();
        assert_eq!(format!("{again:?}"), format!("{system:?}"), "as a system it says the same");
    }
}

#[test]
fn a_part_with_measured_pieces_of_version_1() {
    let text = museum("part-v1-pieces.ron");
    let part = read_part(&text, "museum").unwrap();
    let [first, second] = part.pieces.as_slice() else { panic!("two pieces were measured") };
    assert_eq!((first.from, first.hand, first.corrected_after), (End::Finish, Hand::Left, 0));
    assert_eq!((first.blank.mm(), first.lead_trim.mm(), first.tail_trim.mm()), (845.5, 12.5, 0.0));
    assert_eq!((first.steps[1].rotation.degrees_exact(), first.steps[1].set_angle.degrees_exact()), (-90.0, 59.5));
    let Measurement::Points(points) = &first.measurement else { panic!("points were measured") };
    assert_eq!(points[3].coords.as_slice(), [302.5, 280.0, 150.0]);
    assert_eq!(second.corrected_after, 1);
    let Measurement::Rows(rows, tail) = &second.measurement else { panic!("rows were measured") };
    assert_eq!((rows[1].straight.mm(), rows[1].angle.degrees_exact(), tail.mm()), (125.0, 90.5, 150.0));
}

#[test]
fn a_shop_of_version_1() {
    let shop = read_shop(&museum("shop-v1.ron"), "museum").unwrap();
    assert_eq!(shop.name, "Museum shop");
    assert_eq!(shop.die_named("50.8 on 76.2").unwrap().clamps.len(), 3);
    assert_eq!((shop.machine.longest_blank.mm(), shop.tubes.len()), (4000.0, 1));
}

#[test]
fn a_shop_of_version_1_with_trial_bends() {
    let shop = read_shop(&museum("shop-v1-trials.ron"), "museum").unwrap();
    let record = &shop.springback[0];
    assert_eq!((record.trials.len(), record.stretch, record.line, record.uncracked), (2, Some(0.02), None, false));
    // Nobody was asked for the wall.
    assert!(record.trials.iter().all(|trial| trial.wall.is_none()));
    assert_eq!(record.trials[1].drawn_length.map(|drawn| drawn.mm()), Some(158.0));
    let text = write_shop(&shop);
    assert!(text.contains("format: \"elbowroom-shop/3\""), "{text}");
    assert_eq!(read_shop(&text, "again").unwrap(), shop);
}

#[test]
fn a_shop_of_version_2() {
    let shop = read_shop(&museum("shop-v2.ron"), "museum").unwrap();
    let record = &shop.springback[0];
    assert!(record.uncracked && record.trials.iter().all(|trial| trial.wall.unwrap().mm() == 1.5));
    assert_eq!((shop.limits.least_wall, shop.name.as_str()), (0.7, "Museum shop"));
    let text = write_shop(&shop);
    assert_eq!(read_shop(&text, "again").unwrap(), shop);
    for field in ["uncracked: true", "wall_mm: 1.5"] {
        assert!(text.contains(field), "{field} is lost:\n{text}");
    }
}

#[test]
fn a_shop_of_version_3() {
    let shop = read_shop(&museum("shop-v3.ron"), "museum").unwrap();
    assert_eq!((shop.machine.rotation, shop.machine.hand), (RotationSetting::Reading, Hand::Left));
    let proved: Vec<_> = shop.die_sets[0].clamps.iter().map(|clamp| clamp.proved_on.clone()).collect();
    let on = ProvedOn { wall: Length::from_mm(1.5), material: "304 stainless".into() };
    assert_eq!(proved, [None, None, Some(on)]);
    assert_eq!(read_shop(&write_shop(&shop), "again").unwrap(), shop);
    // Nobody was asked in version 2: every program told turns.
    let older = read_shop(&museum("shop-v2.ron"), "museum").unwrap();
    assert_eq!(older.machine.rotation, RotationSetting::Turn);
    assert!(older.die_sets[0].clamps.iter().all(|clamp| clamp.proved_on.is_none()));
    assert_eq!((older.springback, older.limits, older.tubes), (shop.springback, shop.limits, shop.tubes));
}

#[test]
fn machine_and_clamps_have_the_fields_that_their_versions_were_given_away_with() {
    const MACHINE: &str = "name, longest_blank_mm, tail_hold_mm, largest_angle_deg, hand, square_end_diameters, basis";
    const DIE: &str = "name, od_mm, clr_mm, largest_angle_deg, mark_free_bite_mm, largest_bite_mm, basis, clamps";
    const CLAMP: &str = "length_mm, proved_to_deg, basis";
    let machine = MACHINE.replace("hand,", "hand, rotation,");
    let clamp = CLAMP.replace("deg, ", "deg, proved_on, ");
    for (name, machine, clamp) in [
        ("shop-v1.ron", MACHINE, CLAMP),
        ("shop-v2.ron", MACHINE, CLAMP),
        ("shop-v3.ron", machine.as_str(), clamp.as_str()),
    ] {
        let text = museum(name);
        for (field, wanted) in [("longest_blank_mm:", machine), ("largest_bite_mm:", DIE), ("proved_to_deg:", clamp)] {
            let strange = text.replacen(field, &format!("stranger: 1, {field}"), 1);
            let said = read_shop(&strange, "a").unwrap_err().to_string();
            let fields = said.split_once("the fields here are ").map(|(_, fields)| fields);
            assert_eq!(fields, Some(wanted), "{name}, {field}: {said}");
        }
    }
}

#[test]
fn the_fields_of_version_2_are_those_it_was_given_away_with() {
    for (name, record, trial) in [
        (
            "shop-v1-trials.ron",
            "die, material, trials, line, stretch",
            "set_deg, measured_deg, measured_radius_mm, drawn_length_mm",
        ),
        (
            "shop-v2.ron",
            "die, material, trials, line, stretch, uncracked",
            "set_deg, measured_deg, measured_radius_mm, drawn_length_mm, wall_mm",
        ),
        (
            "shop-v3.ron",
            "die, material, trials, line, stretch, uncracked",
            "set_deg, measured_deg, measured_radius_mm, drawn_length_mm, wall_mm",
        ),
    ] {
        let text = museum(name);
        for (field, wanted) in [
            ("name: \"Museum", "format, name, machine, tubes, die_sets, materials, springback, limits"),
            ("die: \"50.8", record),
            ("set_deg: 40", trial),
        ] {
            let strange = text.replacen(field, &format!("stranger: 1, {field}"), 1);
            let said = read_shop(&strange, "a").unwrap_err().to_string();
            let fields = said.split_once("the fields here are ").map(|(_, fields)| fields);
            assert_eq!(fields, Some(wanted), "{name}, {field}: {said}");
        }
    }
}

#[test]
fn the_fields_of_a_system_of_version_2_are_those_it_was_given_away_with() {
    let system = museum("system-v2.ron");
    for (field, wanted) in [
        ("active:", "format, name, units, active, tubes"),
        ("id:", "id, name, hidden, note, tube, tooling, stock, path, places, pieces"),
        ("die:", "die, clamp_mm, from, hand, seam_start_deg, as_planned, tolerance"),
        ("angle_deg: 0.75", "angle_deg, length_mm"),
        (
            "blank_mm:",
            "from, hand, tube, blank_mm, lead_trim_mm, tail_trim_mm, steps, corrected_after, measured, as_measured",
        ),
    ] {
        assert!(system.contains(field), "{field}");
        let strange = system.replacen(field, &format!("stranger: 1, {field}"), 1);
        let said = read_system(&strange, "a").unwrap_err().to_string();
        let fields = said.split_once("the fields here are ").map(|(_, fields)| fields);
        assert_eq!(fields, Some(wanted), "{field}: {said}");
    }
}

#[test]
fn the_fields_of_a_system_of_version_4_are_those_it_was_given_away_with() {
    let system = museum("system-v4.ron");
    for (field, wanted) in [
        ("active:", "format, name, units, active, floor_mm, tubes, obstacles"),
        ("clearance_mm: 30", "id, name, kind, clearance_mm, hidden, locked, stands, shape"),
        ("at_mm: (100", "at_mm, along, beside"),
        ("travel_mm: 40", "travel_mm"),
        ("blake3: \"af", "file, blake3, unit, up, packed"),
        ("diameter_mm: 60", "diameter_mm, length_mm"),
        ("size_mm: (400", "size_mm"),
    ] {
        assert!(system.contains(field), "{field}");
        let strange = system.replacen(field, &format!("stranger: 1, {field}"), 1);
        let said = read_system(&strange, "a").unwrap_err().to_string();
        let fields = said.split_once("the fields here are ").map(|(_, fields)| fields);
        assert_eq!(fields, Some(wanted), "{field}: {said}");
    }
}

#[test]
fn a_recovery_file_of_version_2() {
    let text = museum("recovery-v2.ron");
    let recovered = read_recovery(&text, "museum").unwrap();
    assert_eq!(recovered.file.as_deref(), Some(Path::new("/parts/tube.ron")));
    assert_eq!(recovered.system.active_tube().name(), "Museum piece, by rows");
    let strange = text.replacen("file:", "stranger: 1, file:", 1);
    let said = read_recovery(&strange, "a").unwrap_err().to_string();
    assert!(said.ends_with("the fields here are format, file, system"), "{said}");
}

/// A version that was given away is frozen: a further field is a further version.
#[test]
fn the_fields_of_version_1_are_those_it_was_given_away_with() {
    let fields = |said: &str| said.split_once("the fields here are ").map(|(_, fields)| fields.to_owned());
    let part = museum("part-v1-pieces.ron");
    let shop = museum("shop-v1.ron");
    let part_fields = |field: &str| {
        assert!(part.contains(field), "{field}");
        fields(&read_part(&part.replacen(field, &format!("stranger: 1, {field}"), 1), "a").unwrap_err().to_string())
    };
    let shop_fields = |field: &str| {
        assert!(shop.contains(field), "{field}");
        fields(&read_shop(&shop.replacen(field, &format!("stranger: 1, {field}"), 1), "a").unwrap_err().to_string())
    };
    let is = |found: Option<String>, wanted: &str| assert_eq!(found.as_deref(), Some(wanted));
    is(part_fields("name:"), "format, name, note, units, tube, tooling, stock, path, pieces");
    is(part_fields("od_mm:"), "od_mm, wall_mm, material, seam");
    is(part_fields("die:"), "die, clamp_mm, seam_start_deg");
    is(part_fields("lead_mm:"), "lead_mm, tail_mm");
    let system = museum("system-v1.ron");
    let system_fields = |field: &str| {
        assert!(system.contains(field), "{field}");
        let strange = system.replacen(field, &format!("stranger: 1, {field}"), 1);
        fields(&read_system(&strange, "a").unwrap_err().to_string())
    };
    is(system_fields("active:"), "format, name, units, active, tubes");
    is(system_fields("id:"), "id, name, hidden, note, tube, tooling, stock, path, places, pieces");
    is(system_fields("od_mm:"), "od_mm, wall_mm, material, seam");
    is(system_fields("die:"), "die, clamp_mm, from, hand, seam_start_deg, as_planned");
    is(system_fields("lead_mm:"), "lead_mm, tail_mm");
    is(
        system_fields("blank_mm:"),
        "from, hand, tube, blank_mm, lead_trim_mm, tail_trim_mm, steps, corrected_after, measured",
    );
    is(shop_fields("name:"), "format, name, machine, tubes, die_sets, materials, springback, limits");
}
