//! `elbowroom convert`: there and back to the bit, and what cannot be converted.

use super::support::{Bench, table};

const POINTS: [[f64; 3]; 5] = [
    [0.1, 0.2, 0.3],
    [333.333_333_333_333_3, 1e-9, -0.7],
    [400.0, 512.123_456_789_012_3, 1.0 / 3.0],
    [900.0, 600.0, 250.000_000_000_000_03],
    [1400.0, 600.0, 250.0],
];

#[test]
fn a_table_comes_back_from_a_part_to_the_byte() {
    let bench = Bench::new();
    bench.write("there.csv", table(&POINTS, 90.5));
    let ran = bench.run(&["convert", "there.csv", "part.ron", "--tube", "60.3x2"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    assert!(ran.out.contains("part.ron"), "{}", ran.out);
    let ran = bench.run(&["convert", "part.ron", "back.csv"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    assert!(ran.out.contains("--tube 60.3x2"), "the table's user is told what it does not hold: {}", ran.out);
    assert_eq!(bench.read("back.csv"), bench.read("there.csv").replace("0.000000001", "1e-9"));
    let (_, from_table) = bench.report("there.csv", &["--tube", "60.3x2"]);
    let (_, from_part) = bench.report("part.ron", &[]);
    assert_eq!(from_table, from_part);
}

#[test]
fn a_bend_form_part_becomes_a_table_of_its_vertices() {
    let bench = Bench::new();
    bench.write("rows.ron", rows(&[(200.0, 0.0, 90.0), (150.0, -65.0, 45.0), (180.0, 180.0, 120.0)]));
    assert_eq!(bench.run(&["convert", "rows.ron", "rows.csv"]).code, Some(0));
    let (_, rows) = bench.report("rows.ron", &[]);
    let (_, points) = bench.report("rows.csv", &["--tube", "60.3x2"]);
    for field in ["rotation_deg", "angle_deg", "tangent_mm", "arc_mm", "starts_at_mm"] {
        for bend in 0..3 {
            let value = |report: &serde_json::Value| report["bends"][bend][field].as_f64().unwrap();
            assert!((value(&rows) - value(&points)).abs() < 1e-7, "bend {}, {field}", bend + 1);
        }
    }
}

#[test]
fn a_u_bend_cannot_become_a_table_and_nothing_is_written() {
    let bench = Bench::new();
    bench.write("u.ron", rows(&[(200.0, 0.0, 90.0), (250.0, 0.0, 180.0)]));
    let wanted = ["u.csv: bend 2 turns 180.000°", "up to 179.999°", "keep it as a part file"];
    bench.refused(&["convert", "u.ron", "u.csv"], &wanted);
    assert!(!bench.path("u.csv").exists());
}

#[test]
fn what_cannot_be_converted_is_told() {
    let bench = Bench::new();
    bench.write("a.csv", table(&POINTS, 90.5));
    bench.refused(&["convert", "a.csv", "b.csv", "--tube", "60.3x2"], &["a.csv", "b.csv", "nothing to convert"]);
    bench.refused(&["convert", "a.csv", "a.ron"], &["a.csv", "--tube 60.3x2"]);
    bench.write("shop.ron", "(format: \"elbowroom-shop/2\", name: \"Mine\")");
    bench.refused(&["convert", "shop.ron", "b.ron"], &["shop.ron", "elbowroom-shop/2", "part or system"]);
    bench.refused(&["convert", "a.csv", "a.txt", "--tube", "60.3x2"], &["a.txt", ".txt are unknown", ".ron", ".csv"]);
    bench.refused(&["convert", "a.xyz", "a.ron"], &["a.xyz", ".xyz are unknown"]);
    bench.refused(&["convert", "none.csv", "a.ron", "--tube", "60.3x2"], &["none.csv", "cannot be read"]);
    bench.refused(
        &["convert", "a.csv", "no/folder/a.ron", "--tube", "60.3x2"],
        &["no/folder/a.ron", "could not be saved"],
    );
    assert!(!bench.path("a.ron").exists());
}

#[test]
fn an_older_file_becomes_one_of_today_and_that_is_said() {
    let bench = Bench::new();
    bench.write("older.ron", rows(&[(200.0, 0.0, 90.0), (150.0, -65.0, 45.0)]));
    let ran = bench.run(&["convert", "older.ron", "today.ron"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    let said =
        "Written: today.ron\nolder.ron is elbowroom-part/1; what is written is elbowroom-system/4, which an older";
    assert!(ran.out.starts_with(said), "{}", ran.out);
    assert!(bench.read("today.ron").contains("elbowroom-system/4"), "{}", bench.read("today.ron"));
    assert_eq!(bench.report("older.ron", &[]), bench.report("today.ron", &[]));
    // There is nothing more to be done to it, over itself or elsewhere.
    let today = bench.read("today.ron");
    for to in ["other.ron", "today.ron"] {
        let wanted = ["today.ron is elbowroom-system/4, which is what ", to, "nothing to convert", ".csv", "--only"];
        bench.refused(&["convert", "today.ron", to], &wanted);
    }
    assert!(!bench.path("other.ron").exists());
    assert_eq!(bench.read("today.ron"), today);
    // Over itself.
    assert_eq!(bench.run(&["convert", "older.ron", "older.ron"]).code, Some(0));
    assert_eq!(bench.read("older.ron"), today);
}

#[test]
fn one_tube_of_several_comes_into_a_file_of_its_own() {
    let bench = Bench::new();
    let tube = |id: u32, name: &str| {
        rows(&[(200.0 + f64::from(id), 0.0, 90.0)])
            .replace("(format: \"elbowroom-part/1\", name: \"rows\",", &format!("(id: {id}, name: \"{name}\","))
    };
    // A metre above the other, so that they say nothing to each other.
    let above = "path: bends(start: (at_mm: (0, 0, 1000), along: (1, 0, 0), bends_towards: (0, 1, 0)), bends: [";
    let (first, second) = (tube(1, "Downpipe").replace("path: bends(bends: [", above), tube(2, "Tail"));
    let head = "(format: \"elbowroom-system/4\", name: \"Hill\", active: 1, tubes: [";
    bench.write("hill.ron", format!("{head}{first}, {second}])"));
    let ran = bench.run(&["convert", "hill.ron", "tail.ron", "--only", "Tail"]);
    assert_eq!((ran.code, ran.err.as_str(), ran.out.as_str()), (Some(0), "", "Written: tail.ron\n"), "{ran:?}");
    assert_eq!(bench.report("tail.ron", &[]), bench.report("hill.ron", &["--only", "Tail"]));
    bench.refused(&["convert", "hill.ron", "head.ron", "--only", "Head"], &["no tube called \"Head\"", "Downpipe"]);
    assert!(!bench.path("head.ron").exists());
}

#[test]
fn a_tube_is_not_named_for_a_file_that_holds_one() {
    let bench = Bench::new();
    bench.write("part.ron", rows(&[(200.0, 0.0, 90.0)]));
    for to in ["out.csv", "out.ron"] {
        bench
            .refused(&["convert", "part.ron", to, "--tube", "50x2"], &["--tube: part.ron says itself", "points table"]);
        assert!(!bench.path(to).exists());
    }
}

#[test]
fn a_failed_conversion_leaves_the_old_file_alone() {
    let bench = Bench::new();
    bench.write("broken.csv", "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n1,2,three,4\n9,9,9,\n");
    bench.write("old.ron", "precious");
    bench.refused(&["convert", "broken.csv", "old.ron", "--tube", "60.3x2"], &["broken.csv, line 3", "z_mm"]);
    assert_eq!(bench.read("old.ron"), "precious");
}

/// A part in bend form: straight, rotation and angle of each bend, on CLR 90.5.
fn rows(bends: &[(f64, f64, f64)]) -> String {
    let mut text = String::from(
        "(format: \"elbowroom-part/1\", name: \"rows\", \
         tube: (od_mm: 60.3, wall_mm: 2.0, material: \"304 stainless\", seam: welded), path: bends(bends: [",
    );
    for (straight, rotation, angle) in bends {
        text +=
            &format!("(straight_mm: {straight:?}, rotation_deg: {rotation:?}, angle_deg: {angle:?}, clr_mm: 90.5),");
    }
    text + "], tail_mm: 300.0))"
}

/// Straights, angles, rotations and radii of a report, each to a millionth.
fn shape(report: &serde_json::Value) -> Vec<i64> {
    let millionths = |value: &serde_json::Value| (value.as_f64().unwrap() * 1e6).round() as i64;
    let straights = report["straights_mm"].as_array().unwrap().iter().map(millionths);
    let bends = report["bends"].as_array().unwrap().iter();
    let figures = bends.flat_map(|bend| ["angle_deg", "rotation_deg", "clr_mm"].map(|field| millionths(&bend[field])));
    straights.chain(figures).collect()
}

#[test]
fn solids_and_drawings_come_back_as_they_were() {
    let bench = Bench::new();
    bench.write("u.ron", rows(&[(200.0, 0.0, 90.0), (250.0, 30.0, 180.0), (100.0, 0.0, 45.0)]));
    let (_, drawn) = bench.report("u.ron", &[]);
    for (file, tube) in [("u.step", &[][..]), ("U.STP", &[]), ("u.dxf", &["--tube", "60.3x2"])] {
        let ran = bench.run(&["convert", "u.ron", file]);
        assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
        let ran = bench.run(&[&["check", file, "--format", "json"], tube].concat());
        let back: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
        assert_eq!(shape(&back), shape(&drawn), "{file}");
        assert_eq!(back["tube"], drawn["tube"], "{file}");
        let ran = bench.run(&[&["convert", file, "back.ron"], tube].concat());
        assert_eq!(ran.code, Some(0), "{ran:?}");
        assert_eq!(shape(&bench.report("back.ron", &[]).1), shape(&drawn), "{file}");
    }
    let ran = bench.run(&["program", "u.step"]);
    assert!(ran.code != Some(2) && ran.err.contains("u.step: A STEP file names no material"), "{ran:?}");
    // A drawing holds no tube, and knows a half turn that a table does not.
    bench.refused(&["check", "u.dxf"], &["u.dxf: it holds no tube, only a centreline", "--tube 60.3x2"]);
    bench.refused(&["convert", "u.dxf", "u.csv"], &["turns 180.000°"]);
    bench.refused(&["convert", "u.step", "v.stp"], &["both of the format STEP solids", "nothing to convert"]);
    bench.refused(&["convert", "u.step", "v.dxf", "--tube", "50x2"], &["--tube: u.step says itself"]);
}

#[test]
fn meshes_are_written_and_not_read() {
    let bench = Bench::new();
    bench.write("a.ron", rows(&[(200.0, 0.0, 90.0)]));
    for file in ["a.stl", "a.glb"] {
        let ran = bench.run(&["convert", "a.ron", file]);
        assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
        assert!(std::fs::metadata(bench.path(file)).unwrap().len() > 10_000);
        bench.refused(&["convert", file, "b.ron"], &[file, "only written here", "read are .ron"]);
    }
    bench.write("a.csv", table(&POINTS, 90.5));
    bench.refused(&["convert", "a.csv", "b.stl"], &["a.csv", "--tube"]);
    assert_eq!(bench.run(&["convert", "a.csv", "b.stl", "--tube", "60.3x2"]).code, Some(0));
    assert_eq!(bench.run(&["convert", "a.csv", "b.dxf"]).code, Some(0), "a drawing needs no tube");
}

#[test]
fn what_is_finished_is_on_the_radii_that_springback_leaves() {
    let bench = Bench::new();
    bench.write("a.ron", rows(&[(300.0, 0.0, 90.0)]));
    let ran = bench.run(&["convert", "a.ron", "a.step", "--finished", "--shop", "built-in"]);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    let (_, drawn) = bench.report("a.ron", &["--shop", "built-in"]);
    let ran = bench.run(&["check", "a.step", "--format", "json", "--shop", "built-in"]);
    let back: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let left = drawn["bends"][0]["formed"]["springback"]["free_clr_mm"].as_f64().unwrap();
    assert!((back["bends"][0]["clr_mm"].as_f64().unwrap() - left).abs() < 1e-6 && left > 90.6, "{left}");
    bench.write("odd.ron", rows(&[(300.0, 0.0, 90.0)]).replace("clr_mm: 90.5", "clr_mm: 77.7"));
    bench.refused(&["convert", "odd.ron", "odd.step", "--finished", "--shop", "built-in"], &["odd.ron", "no die set"]);
}

#[test]
fn a_system_becomes_an_assembly_and_comes_back_whole() {
    let bench = Bench::new();
    let tube = |id: u32, name: &str| {
        rows(&[(200.0 + f64::from(id), 0.0, 90.0)])
            .replace("(format: \"elbowroom-part/1\", name: \"rows\",", &format!("(id: {id}, name: \"{name}\","))
    };
    let (first, second) = (tube(1, "Downpipe"), tube(2, "Tail"));
    bench.write(
        "hill.ron",
        format!("(format: \"elbowroom-system/3\", name: \"Hill\", active: 1, tubes: [{first}, {second}])"),
    );
    assert_eq!(bench.run(&["convert", "hill.ron", "hill.step"]).code, Some(0));
    assert_eq!(bench.run(&["convert", "hill.step", "back.ron"]).code, Some(0));
    for name in ["Downpipe", "Tail"] {
        let (_, drawn) = bench.report("hill.ron", &["--only", name]);
        assert_eq!(shape(&bench.report("back.ron", &["--only", name]).1), shape(&drawn));
    }
    assert_eq!(bench.run(&["convert", "hill.ron", "tail.step", "--only", "Tail"]).code, Some(0));
    assert_eq!(bench.read("tail.step").matches("MANIFOLD_SOLID_BREP").count(), 1);
    assert!(bench.read("back.ron").contains("name: \"Hill\""), "the whole keeps its name");
    bench.refused(&["convert", "hill.step", "hill.csv"], &["2 tubes", "--only"]);
}
