//! A table of ten thousand bends. That it takes linear time is for the benchmarks to show; here it must
//! come out whole and right.

use super::support::{Bench, table};

#[test]
fn ten_thousand_bends_come_out_whole() {
    const BENDS: usize = 10_000;
    let bench = Bench::new();
    // A zig-zag of 90° corners that climbs, so that it never meets itself.
    let points: Vec<_> =
        (0..BENDS + 2).map(|n| [(n as f64 / 2.0).floor() * 400.0, (n as f64 / 2.0).ceil() * 400.0, 0.0]).collect();
    bench.write("long.csv", table(&points, 90.5));
    let (code, report) = bench.report("long.csv", &["--tube", "60.3x2"]);
    assert_eq!(report["bends"].as_array().unwrap().len(), BENDS);
    assert_eq!(report["straights_mm"].as_array().unwrap().len(), BENDS + 1);
    let quarter = 90.5 * std::f64::consts::FRAC_PI_2;
    let wanted = 400.0 * (BENDS + 1) as f64 - BENDS as f64 * (2.0 * 90.5 - quarter);
    let found = report["developed_length_mm"].as_f64().unwrap();
    assert!((found / wanted - 1.0).abs() < 1e-12, "{found} {wanted}");
    let last = &report["bends"][BENDS - 1];
    assert_eq!((&last["number"], &last["rotation_deg"]), (&BENDS.into(), &180.0.into()));
    // Three kilometres of tube fit no machine.
    assert_eq!(code, 1);
    assert!(report["findings"].as_array().unwrap().iter().any(|finding| finding["fault"] == "blank-too-long"));
    assert_eq!(bench.run(&["convert", "long.csv", "long.ron", "--tube", "60.3x2"]).code, Some(0));
    assert_eq!(bench.run(&["convert", "long.ron", "back.csv"]).code, Some(0));
    assert_eq!(bench.read("back.csv"), bench.read("long.csv"));
}
