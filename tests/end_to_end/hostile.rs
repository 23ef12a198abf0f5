//! Hostile input: never a panic, always a reason or a report.

use std::io::Read;
use std::process::Stdio;

use super::support::{Bench, table};

const HEAD: &str = "x_mm,y_mm,z_mm,clr_mm\n";

#[test]
fn broken_tables_are_refused_with_their_line() {
    let bench = Bench::new();
    let cases: [(&str, &[u8], &[&str]); 8] = [
        ("empty", b"", &["line 1", "empty"]),
        ("header", b"x,y,z,r\n0,0,0,\n", &["line 1", "x_mm,y_mm,z_mm,clr_mm"]),
        ("word", b"x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n1,one,1,9\n2,2,2,\n", &["line 3", "y_mm", "\"one\""]),
        ("nan", b"x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n1,NaN,1,9\n2,2,2,\n", &["line 3", "y_mm", "NaN"]),
        ("far", b"x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n1,1e10,1,9\n2,2,2,\n", &["line 3", "y_mm", "10000000"]),
        ("short", b"x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n1,1\n2,2,2,\n", &["line 3", "2 columns", "4"]),
        ("radius", b"x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n\n1,1,1,\n2,2,2,\n", &["line 4", "clr_mm is empty"]),
        ("bytes", b"\x00\xff\xfe\x80\r\n\x01", &["line 1", "text in UTF-8"]),
    ];
    for (name, bytes, wanted) in cases {
        let file = format!("{name}.csv");
        bench.write(&file, bytes);
        bench.refused(&["check", &file, "--tube", "60.3x2"], &[&[file.as_str()], wanted].concat());
    }
}

#[test]
fn broken_parts_are_refused() {
    let bench = Bench::new();
    let sound = "(format: \"elbowroom-part/1\", name: \"a\", \
                 tube: (od_mm: 60.3, wall_mm: 2.0, material: \"304 stainless\", seam: welded), \
                 path: bends(bends: [], tail_mm: 300.0))";
    bench.write("sound.ron", sound);
    assert_eq!(bench.run(&["check", "sound.ron"]).code, Some(0));
    let cases = [
        ("empty", String::new()),
        ("text", "hello".into()),
        ("newer", sound.replace("part/1", "part/999")),
        ("stranger", sound.replace("part/1", "shop/1")),
        ("unknown", sound.replace("name:", "colour: 3, name:")),
        ("nan", sound.replace("300.0", "NaN")),
        ("endless", sound.replace("300.0", "inf")),
        ("thick", sound.replace("2.0", "50.0")),
        ("half", sound[..sound.len() / 2].into()),
        ("deep", "(".repeat(100_000)),
        ("zero", "\0".repeat(1000)),
    ];
    for (name, text) in cases {
        let file = format!("{name}.ron");
        bench.write(&file, text);
        bench.refused(&["check", &file], &[file.as_str()]);
    }
    bench.write("latin.ron", b"(format: \"elbowroom-part/1\", name: \"caf\xe9\")");
    bench.refused(&["check", "latin.ron"], &["latin.ron"]);
}

#[test]
fn files_that_are_none_are_refused() {
    let bench = Bench::new();
    std::fs::create_dir(bench.path("folder.csv")).unwrap();
    bench.refused(&["check", "folder.csv", "--tube", "60.3x2"], &["folder.csv"]);
    bench.refused(&["check", "none.csv", "--tube", "60.3x2"], &["none.csv"]);
    bench.refused(&["check", "none.ron"], &["none.ron"]);
    bench.refused(&["check", "tube.iges"], &["tube.iges", ".iges are unknown", ".csv", ".step, .stp (STEP solids)"]);
    bench.refused(&["check", "tube.stl"], &["tube.stl", ".stl are only written here", ".step"]);
    bench.refused(&["check", ""], &[]);
}

/// Impossible geometry is a report with a finding, never a failure to run.
#[test]
fn impossible_tubes_are_reported() {
    let bench = Bench::new();
    let (far, near) = (1e7, 1e-7);
    let cases: [(&str, String); 8] = [
        ("fold-back", table(&[[0.0; 3], [500.0, 0.0, 0.0], [0.0, 0.0, 0.0]], 90.5)),
        ("coincident", table(&[[0.0; 3], [500.0, 0.0, 0.0], [500.0, 0.0, 0.0], [500.0, 500.0, 0.0]], 90.5)),
        ("one-place", table(&[[1.0; 3], [1.0; 3], [1.0; 3]], 90.5)),
        ("overlap", table(&[[0.0; 3], [50.0, 0.0, 0.0], [50.0, 50.0, 0.0], [0.0, 50.0, 0.0]], 90.5)),
        ("tight", table(&[[0.0; 3], [500.0, 0.0, 0.0], [500.0, 500.0, 0.0]], 3.0)),
        ("sharp", table(&[[0.0; 3], [500.0, 0.0, 0.0], [500.0, 500.0, 0.0]], 0.0)),
        ("far", table(&[[-far; 3], [far, -far, far], [far; 3]], 90.5)),
        ("near", table(&[[0.0; 3], [near, 0.0, 0.0], [near, near, 0.0]], 90.5)),
    ];
    for (name, text) in cases {
        let file = format!("{name}.csv");
        bench.write(&file, text);
        let (code, report) = bench.report(&file, &["--tube", "60.3x2"]);
        assert_eq!(code, 1, "{name}: {report}");
        assert_ne!(report["findings"].as_array().unwrap().len(), 0, "{name}");
        assert_eq!(bench.run(&["check", &file, "--tube", "60.3x2"]).code, Some(1), "{name}");
    }
}

#[test]
fn two_points_are_a_straight_tube() {
    let bench = Bench::new();
    bench.write("straight.csv", format!("{HEAD}0,0,0,\n0,0,750.25,\n"));
    let (code, report) = bench.report("straight.csv", &["--tube", "60.3x2"]);
    assert_eq!(code, 0, "{report}");
    assert_eq!(report["straights_mm"], serde_json::json!([750.25]));
    assert_eq!(report["bends"], serde_json::json!([]));
    assert_eq!(report["developed_length_mm"], 750.25);
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let bench = Bench::new();
    let points: Vec<_> = (0..4000).map(|n| [f64::from(n) * 400.0, f64::from(n % 2) * 300.0, 0.0]).collect();
    bench.write("long.csv", table(&points, 90.5));
    let mut command = bench.command(&["check", "long.csv", "--tube", "60.3x2", "--format", "json"]);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let code = child.wait().unwrap().code();
    let mut told = String::new();
    child.stderr.take().unwrap().read_to_string(&mut told).unwrap();
    assert_eq!((code, told.as_str()), (Some(1), ""));
}
