//! What stands around a tube: meshes named on the command line, obstacles in the file, other tubes.

use serde_json::Value;

use super::support::{Bench, faults, table};

/// A tube of 50.8 along x, from 0 to 400, then a bend of CLR 76.2 and 500 along y: it bends as drawn.
const POINTS: [[f64; 3]; 3] = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 500.0, 0.0]];
const TUBE: [&str; 2] = ["--tube", "50.8x1.5"];

fn bench() -> Bench {
    let bench = Bench::new();
    bench.write("points.csv", table(&POINTS, 76.2));
    bench
}

/// A wall across y at this distance below the tube's middle, so wide that nothing passes it.
fn floor(z: f64) -> String {
    let corners = [[-900.0, -900.0], [900.0, -900.0], [900.0, 900.0], [-900.0, 900.0]];
    let points = corners.map(|[x, y]| format!("v {x} {y} {z}\n")).concat();
    format!("{points}f 1 2 3 4\n")
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[test]
fn a_mesh_is_measured_from_the_outside_of_the_tube() {
    let bench = bench();
    bench.write("floor.obj", floor(-65.4));
    let named = ["--around", "floor.obj", "--around-unit", "mm"];
    let (code, report) = bench.report("points.csv", &[&TUBE[..], &named].concat());
    let [clearance] = report["clearances"].as_array().unwrap().as_slice() else { panic!("{report}") };
    // 65.4 less half of 50.8.
    assert!((number(&clearance["least_mm"]) - 40.0).abs() < 1e-3, "{clearance}");
    assert_eq!((code, &clearance["to"], &clearance["kind"]), (0, &"floor.obj".into(), &"body".into()));
    assert_eq!((&clearance["wanted_mm"], &clearance["wanted_basis"]), (&25.0.into(), &"common_practice".into()));
    assert_eq!((&clearance["tube"], &clearance["doubt"]), (&"points".into(), &Value::Null));
    let [on_tube, on_other] = ["on_tube", "on_other"].map(|place| number(&clearance[place][2]));
    assert!((on_tube + 25.4).abs() < 1e-3 && (on_other + 65.4).abs() < 1e-3, "{clearance}");
    assert!((0.0..=880.0).contains(&number(&clearance["at_mm"])));
    assert_eq!(faults(&report), Vec::<&str>::new());
    // 45.4 below the middle there are 20 left: usual is 25, so that is a caution; what is laid down is a stop.
    bench.write("floor.obj", floor(-45.4));
    let (code, report) = bench.report("points.csv", &[&TUBE[..], &named].concat());
    assert_eq!((code, faults(&report)), (0, vec!["too-close"]));
    let finding = &report["findings"][0];
    assert_eq!((&finding["severity"], &finding["limit"]), (&"caution".into(), &25.0.into()));
    assert!((number(&finding["measured"]) - 20.0).abs() < 1e-3 && number(&finding["to_mm"]) > 800.0, "{finding}");
    let own = [&TUBE[..], &named, &["--clearance", "20.5"]].concat();
    let (code, report) = bench.report("points.csv", &own);
    assert_eq!((code, &report["findings"][0]["limit_basis"]), (1, &"shop".into()));
    let kept = [&TUBE[..], &named, &["--clearance", "20"]].concat();
    assert_eq!(bench.report("points.csv", &kept).0, 0, "exactly what is wanted is enough");
    // 20.4 below the middle the tube reaches 5 into it.
    bench.write("floor.obj", floor(-20.4));
    let (code, report) = bench.report("points.csv", &[&TUBE[..], &named].concat());
    assert_eq!((code, faults(&report)), (1, vec!["hits"]));
    assert!((number(&report["clearances"][0]["least_mm"]) + 5.0).abs() < 1e-3, "{report}");
    let text = bench.run(&[&["check", "points.csv"][..], &TUBE, &named].concat()).out;
    assert!(text.starts_with("Cannot stand as drawn: the tube runs into \u{201c}floor.obj\u{201d}"), "{text}");
    assert!(text.contains("Around the tube, millimetres"), "{text}");
    assert!(text.contains("common practice, no source") && text.contains("~25.0"), "{text}");
}

#[test]
fn unit_and_axis_of_a_mesh_count() {
    let bench = bench();
    // In inches 65.4 mm are 2.5748; a file whose y is up has the drawing's z as its y.
    bench.write(
        "floor.obj",
        "v -90 -2.574803 90\nv 90 -2.574803 90\nv 90 -2.574803 -90\nv -90 -2.574803 -90\nf 1 2 3 4\n",
    );
    let named = ["--around", "floor.obj", "--around-unit", "in", "--around-up", "y"];
    let (_, report) = bench.report("points.csv", &[&TUBE[..], &named].concat());
    assert!((number(&report["clearances"][0]["least_mm"]) - 40.0).abs() < 1e-3, "{report}");
    let check = |more: &[&str]| -> Vec<String> {
        [&["check", "points.csv"][..], &TUBE, more].concat().iter().map(ToString::to_string).collect()
    };
    bench.refused(
        &check(&["--around", "floor.obj"]),
        &["floor.obj: OBJ does not say in which unit it is drawn; name it with --around-unit: mm, in or m"],
    );
    bench.refused(&check(&["--around", "gone.obj", "--around-unit", "mm"]), &["gone.obj: it cannot be read"]);
    bench.refused(&check(&["--around", "floor.ply"]), &["floor.ply: its name does not end as that of a mesh does"]);
    bench.write("cut.obj", "v 0 0 0\nv 1 0 0\nf 1 2 3\n");
    bench.refused(
        &check(&["--around", "cut.obj", "--around-unit", "mm"]),
        &["cut.obj, line 3: a corner names vertex 3"],
    );
    bench.refused(&check(&["--clearance", "-1"]), &["--clearance", "such as 25"]);
    bench.refused(&check(&["--around-unit", "cm"]), &["cm"]);
}

fn tube(id: u32, name: &str, points: &str, bends: &str) -> String {
    format!(
        "(id: {id}, name: \"{name}\", tube: (od_mm: 50.8, wall_mm: 1.5, material: \"304 stainless\", seam: welded), \
         path: vertices(points_mm: [{points}], clr_mm: [{bends}])),\n"
    )
}

fn system(tubes: &[String], obstacles: &str) -> String {
    format!("(format: \"elbowroom-system/4\", tubes: [\n{}], obstacles: [\n{obstacles}])", tubes.concat())
}

fn downpipe() -> String {
    tube(1, "Downpipe", "(0, 0, 0), (400, 0, 0), (400, 500, 0)", "76.2")
}

/// An obstacle at a height, of a kind and a shape.
fn obstacle(id: u32, name: &str, z: f64, more: &str) -> String {
    format!(
        "(id: {id}, name: \"{name}\", stands: (at_mm: (200, 0, {z}), along: (1, 0, 0), beside: (0, 1, 0)), {more}),\n"
    )
}

#[test]
fn obstacles_of_the_file_are_measured_by_their_kinds() {
    let bench = Bench::new();
    let shape = "shape: box(size_mm: (50, 50, 20))";
    // The box's lower face lies 10 below its middle: 25.4 + 10 + room.
    let at = |room: f64| 25.4 + 10.0 + room;
    type Wanted = Option<(&'static str, &'static str, f64)>;
    let cases: [(&str, f64, Wanted); 11] = [
        ("kind: body", 25.0, None),
        ("kind: body", 24.9, Some(("too-close", "caution", 25.0))),
        ("kind: wiring", 99.9, Some(("too-close", "caution", 100.0))),
        ("kind: wiring", 100.0, None),
        ("kind: fuel_line", 99.9, Some(("too-close", "caution", 100.0))),
        ("kind: fuel_line", 38.1, Some(("too-close", "caution", 100.0))),
        ("kind: fuel_line", 38.0, Some(("too-close", "stop", 38.1))),
        ("kind: moving(travel_mm: 40)", 64.9, Some(("too-close", "caution", 65.0))),
        ("kind: moving(travel_mm: 40)", 65.0, None),
        ("kind: body, clearance_mm: 60", 59.9, Some(("too-close", "stop", 60.0))),
        ("kind: wiring, hidden: true", -0.1, Some(("hits", "stop", 0.0))),
    ];
    for (more, room, wanted) in cases {
        bench.write("hill.ron", system(&[downpipe()], &obstacle(1, "Thing", at(room), &format!("{more}, {shape}"))));
        let (code, report) = bench.report("hill.ron", &[]);
        assert!((number(&report["clearances"][0]["least_mm"]) - room).abs() < 1e-6, "{more}: {report}");
        let found = report["findings"].as_array().unwrap().first().map(|finding| {
            let word = |field: &str| finding[field].as_str().unwrap().to_owned();
            (word("fault"), word("severity"), number(&finding["limit"]))
        });
        let wanted = wanted.map(|(fault, severity, limit)| (fault.to_owned(), severity.to_owned(), limit));
        assert_eq!(
            code,
            i32::from(wanted.as_ref().is_some_and(|(_, severity, _)| severity == "stop")),
            "{more}, {room}"
        );
        assert_eq!(found, wanted, "{more}, {room}");
    }
    // A published figure says so; one of the ground is a check of its own.
    let ground = "(id: 1, name: \"Road\", kind: ground, stands: (at_mm: (0, 0, -109.4), along: (1, 0, 0), \
                  beside: (0, 1, 0)), shape: plane)";
    bench.write("hill.ron", system(&[downpipe()], ground));
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!((code, faults(&report)), (0, vec!["ground-too-near"]));
    let finding = &report["findings"][0];
    assert!((number(&finding["measured"]) - 84.0).abs() < 1e-3 && finding["limit_basis"] == "published", "{finding}");
    assert!(
        finding["text"].as_str().unwrap().starts_with("The tube hangs 84.0 mm over \u{201c}Road\u{201d}"),
        "{finding}"
    );
    // What is named on the command line holds for all of it.
    assert_eq!(bench.report("hill.ron", &["--clearance", "80"]).0, 0);
    assert_eq!(bench.report("hill.ron", &["--clearance", "90"]).0, 1);
}

#[test]
fn a_mesh_that_is_missing_broken_or_changed_is_told() {
    let bench = Bench::new();
    let mesh = |hash: &str| {
        obstacle(
            1,
            "Chassis",
            0.0,
            &format!("shape: mesh(file: \"parts/floor.obj\", blake3: \"{hash}\", unit: millimetre, up: z)"),
        )
    };
    bench.write("hill.ron", system(&[downpipe()], &mesh("")));
    let (code, report) = bench.report("hill.ron", &[]);
    let clearance = &report["clearances"][0];
    assert_eq!((code, faults(&report), &clearance["least_mm"]), (1, vec!["not-measured"], &Value::Null));
    assert!(clearance["doubt"].as_str().unwrap().contains("it cannot be read"), "{clearance}");
    let text = bench.run(&["check", "hill.ron"]).out;
    assert!(text.starts_with("Nobody knows whether it clears \u{201c}Chassis\u{201d}"), "{text}");
    assert!(text.contains("not measured"), "{text}");
    std::fs::create_dir(bench.path("parts")).unwrap();
    bench.write("parts/floor.obj", floor(-90.0));
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!((code, faults(&report)), (0, vec!["not-measured"]), "it has changed");
    assert_eq!(report["findings"][0]["severity"], "caution");
    assert!((number(&report["clearances"][0]["least_mm"]) - 64.6).abs() < 1e-3);
    let hash = elbowroom_exchange::triangles::fingerprint(floor(-90.0).as_bytes());
    bench.write("hill.ron", system(&[downpipe()], &mesh(&hash)));
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!((code, faults(&report)), (0, vec![]));
    bench.write("parts/floor.obj", "v 0 0 0\nv nan 0 0\n");
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!((code, faults(&report)), (1, vec!["not-measured"]));
}

#[test]
fn a_mesh_that_is_packed_in_needs_no_file() {
    let bench = Bench::new();
    // "v 0 0 0\nv 900 0 0\nv 0 900 0\nf 1 2 3\n" by `base64`.
    let packed = "diAwIDAgMAp2IDkwMCAwIDAKdiAwIDkwMCAwCmYgMSAyIDMK";
    let hash = elbowroom_exchange::triangles::fingerprint(b"v 0 0 0\nv 900 0 0\nv 0 900 0\nf 1 2 3\n");
    let more =
        format!("shape: mesh(file: \"a.obj\", blake3: \"{hash}\", unit: millimetre, up: z, packed: \"{packed}\")");
    bench.write("hill.ron", system(&[downpipe()], &obstacle(1, "Sheet", -55.4, &more)));
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!((code, faults(&report)), (0, vec![]));
    assert!((number(&report["clearances"][0]["least_mm"]) - 30.0).abs() < 1e-3, "{report}");
}

#[test]
fn tubes_are_measured_against_each_other_and_joints_are_none() {
    let bench = Bench::new();
    // Crosses over the first leg, its middle 60 above: 9.2 are left.
    let over = |z: f64| tube(2, "Over", &format!("(200, -300, {z}), (200, 300, {z})"), "");
    bench.write("hill.ron", system(&[downpipe(), over(60.0)], ""));
    let (code, report) = bench.report("hill.ron", &[]);
    let [clearance] = report["clearances"].as_array().unwrap().as_slice() else { panic!("once a pair: {report}") };
    assert_eq!((code, &clearance["kind"], &clearance["wanted_basis"]), (0, &"tube".into(), &Value::Null));
    assert!((number(&clearance["least_mm"]) - 9.2).abs() < 1e-5, "{clearance}");
    bench.write("hill.ron", system(&[downpipe(), over(50.0)], ""));
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!(code, 1);
    for tube in report["tubes"].as_array().unwrap() {
        assert_eq!(faults(&tube["check"]), ["hits"], "{tube}");
        let finding = &tube["check"]["findings"][0];
        assert!((number(&finding["measured"]) + 0.8).abs() < 1e-5, "{finding}");
    }
    assert_eq!(bench.report("hill.ron", &["--only", "Over"]).0, 1, "one alone is measured against the others too");
    // A tail that goes on where the downpipe ends is joined to it.
    let tail = |y: f64| tube(2, "Tail", &format!("(400, {y}, 0), (400, {}, 0)", y + 400.0), "");
    bench.write("hill.ron", system(&[downpipe(), tail(500.0)], ""));
    let (code, report) = bench.report("hill.ron", &[]);
    assert_eq!((code, faults(&report["tubes"][0]["check"])), (0, vec![]), "{report}");
    // One that runs back along it is not.
    let back = tube(2, "Tail", "(400, 500, 0), (400, 200, 0)", "");
    bench.write("hill.ron", system(&[downpipe(), back], ""));
    assert_eq!(bench.report("hill.ron", &[]).0, 1);
    // A branch that is drawn onto its middle is joined as well.
    let branch = tube(2, "Branch", "(200, 0, 0), (200, 0, 300)", "");
    bench.write("hill.ron", system(&[downpipe(), branch], ""));
    assert_eq!(bench.report("hill.ron", &[]).0, 0);
    // Far away they say nothing.
    bench.write("hill.ron", system(&[downpipe(), over(500.0)], ""));
    assert_eq!(bench.report("hill.ron", &[]).1["clearances"], Value::Array(vec![]));
}

#[test]
fn the_window_finds_what_the_check_finds() {
    let bench = Bench::new();
    bench.write("floor.obj", floor(-45.4));
    let hash = elbowroom_exchange::triangles::fingerprint(floor(-45.4).as_bytes());
    let mesh = format!("shape: mesh(file: \"floor.obj\", blake3: \"{hash}\", unit: millimetre, up: z)");
    let around = [
        obstacle(1, "Beam", 30.0, "shape: box(size_mm: (50, 50, 20))"),
        obstacle(2, "Floor", 0.0, &mesh),
        obstacle(3, "Hose", 120.0, "kind: wiring, hidden: true, shape: cylinder(diameter_mm: 10, length_mm: 300)"),
    ];
    let over = tube(2, "Over", "(200, -300, 60), (200, 300, 60)", "");
    for (tubes, obstacles) in [
        (vec![downpipe()], around.concat()),
        (vec![downpipe(), over.clone()], around.concat()),
        (vec![downpipe(), over], String::new()),
    ] {
        bench.write("hill.ron", system(&tubes, &obstacles));
        let ran = bench.run(&["check", "hill.ron", "--format", "json"]);
        let shop = elbowroom_workbench::file::built_in_shop();
        let first = elbowroom_bending::System::of(elbowroom_bending::specimen::part(vec![], 300.0).unwrap());
        let window = elbowroom_workbench::Workbench::with_system(first.into(), shop.clone());
        let mut window = window.surveying_by(elbowroom_exchange::survey_mesh);
        window.perform(elbowroom_workbench::Command::Open(bench.path("hill.ron")));
        let found: Vec<_> = window.tubes().map(|(tube, solved)| ((*tube.part).clone(), (**solved).clone())).collect();
        assert!(found.iter().any(|(_, solved)| !solved.clearances.is_empty()), "something stands around");
        let mut out = Vec::new();
        match found.as_slice() {
            [(part, solved)] => elbowroom_exchange::report::write_json(&mut out, part, &shop, solved).unwrap(),
            found => {
                elbowroom_exchange::report::write_system_json(&mut out, window.system().name(), &shop, found).unwrap();
            }
        }
        assert_eq!(String::from_utf8(out).unwrap(), ran.out.trim_end(), "{}", ran.err);
    }
}
