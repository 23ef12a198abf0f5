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
