//! The JSON report: every field of the contract, and every figure worked out again from the points.

use serde_json::Value;

use super::recomputed::Recomputed;
use super::support::{Bench, table};

/// Six bends in space on 50.8 mm tube at CLR 76.2: two straights that a 125 mm clamp does not fit on, one
/// of them after a shallow bend.
const POINTS: [[f64; 3]; 8] = [
    [0.0, 0.0, 0.0],
    [300.0, 0.0, 0.0],
    [378.0, 156.0, 26.0],
    [640.0, 300.0, 120.0],
    [778.0, 371.0, 155.0],
    [868.0, 469.0, 220.0],
    [878.0, 800.0, 225.0],
    [1378.0, 840.0, 225.0],
];
const CLR: f64 = 76.2;
const CLAMP: f64 = 125.0;

#[track_caller]
fn close(found: &Value, wanted: f64, tolerance: f64) {
    let found = found.as_f64().unwrap_or_else(|| panic!("{found} is no number"));
    assert!((found - wanted).abs() <= tolerance, "found {found}, worked out {wanted}");
}

fn keys(value: &Value) -> Vec<&str> {
    value.as_object().unwrap().keys().map(String::as_str).collect()
}

#[test]
fn the_report_holds_the_fields_of_the_contract_and_no_others() {
    let bench = Bench::new();
    bench.write("tube.csv", table(&POINTS, CLR));
    let (_, report) = bench.report("tube.csv", &["--tube", "50.8x1.5"]);
    let sorted = |mut wanted: Vec<&'static str>| {
        wanted.sort_unstable();
        wanted
    };
    let mut top = keys(&report);
    top.sort_unstable();
    let wanted = vec![
        "report",
        "verdict",
        "from",
        "hand",
        "tube",
        "straights_mm",
        "bends",
        "developed_length_mm",
        "lead_trim_mm",
        "lead_trim_basis",
        "tail_trim_basis",
        "blank_length_basis",
        "tail_trim_mm",
        "blank_length_mm",
        "cut",
        "findings",
        "seam",
        "mass_kg",
        "blank_mass_kg",
        "clearances",
        "mass_per_metre_kg",
        "mass_basis",
    ];
    assert_eq!(top, sorted(wanted));
    assert_eq!(report["report"], "elbowroom/1");
    assert_eq!(keys(&report["verdict"]).len(), 2);
    assert!(["none", "note", "caution", "stop"].contains(&report["verdict"]["severity"].as_str().unwrap()));
    assert!(report["verdict"]["text"].as_str().unwrap().ends_with('.'));
    let wanted = serde_json::json!({"od_mm": 50.8, "wall_mm": 1.5, "material": "304 stainless"});
    assert_eq!(report["tube"], wanted);
    for bend in report["bends"].as_array().unwrap() {
        let mut found = keys(bend);
        found.sort_unstable();
        let wanted = vec![
            "number",
            "rotation_deg",
            "angle_deg",
            "clr_mm",
            "tangent_mm",
            "arc_mm",
            "starts_at_mm",
            "clamp",
            "formed",
        ];
        assert_eq!(found, sorted(wanted));
        let mut found = keys(&bend["clamp"]);
        found.sort_unstable();
        assert_eq!(
            found,
            sorted(vec!["length_mm", "overlap_mm", "bite_mm", "needs_straight_mm", "needs_straight_basis"])
        );
    }
    let findings = report["findings"].as_array().unwrap();
    assert!(!findings.is_empty(), "this table has straights that are too short");
    for finding in findings {
        let mut found = keys(finding);
        found.sort_unstable();
        let wanted = vec![
            "fault",
            "severity",
            "bend",
            "from_mm",
            "to_mm",
            "also",
            "measured",
            "measured_basis",
            "limit",
            "limit_basis",
            "unit",
            "text",
        ];
        assert_eq!(found, sorted(wanted));
        assert!(["mm", "deg", "count"].contains(&finding["unit"].as_str().unwrap()), "{finding}");
    }
}

#[test]
fn every_figure_follows_from_the_points() {
    let bench = Bench::new();
    bench.write("tube.csv", table(&POINTS, CLR));
    let (_, report) = bench.report("tube.csv", &["--tube", "50.8x1.5"]);
    let wanted = Recomputed::of(&POINTS, CLR);
    let bends = report["bends"].as_array().unwrap();
    assert_eq!(bends.len(), POINTS.len() - 2);
    for (index, bend) in bends.iter().enumerate() {
        assert_eq!(bend["number"], index + 1);
        assert_eq!(bend["clr_mm"], CLR);
        close(&bend["rotation_deg"], wanted.rotations_deg[index], 1e-6);
        close(&bend["angle_deg"], wanted.angles_deg[index], 1e-6);
        close(&bend["tangent_mm"], wanted.tangents[index], 1e-6);
        close(&bend["arc_mm"], wanted.arcs[index], 1e-6);
        close(&bend["starts_at_mm"], wanted.starts_at[index], 1e-6);
        close(&bend["clamp"]["length_mm"], CLAMP, 0.0);
    }
    for (index, straight) in report["straights_mm"].as_array().unwrap().iter().enumerate() {
        close(straight, wanted.straights[index], 1e-6);
    }
    close(&report["developed_length_mm"], wanted.developed, 1e-6);
    let length = |field: &str| report[field].as_f64().unwrap();
    // Let go, a bend opens to a radius of die × set ÷ left (S01): its arc is the one that was set, and the vertex stays, so
    // that the legs on either side give way by (free − drawn) tan(θ/2).
    let sprung = |bend: &Value| {
        let at = |field: &str| bend["formed"]["springback"][field].as_f64().unwrap();
        let (set, left) = (at("set_angle_deg").to_radians(), at("free_angle_deg").to_radians());
        let free = CLR * set / left;
        close(&bend["formed"]["springback"]["free_clr_mm"], free, 1e-9);
        CLR * (set - left) - 2.0 * (free - CLR) * (left / 2.0).tan()
    };
    let blank = wanted.developed + length("lead_trim_mm") + length("tail_trim_mm");
    close(&report["blank_length_mm"], blank + bends.iter().map(sprung).sum::<f64>(), 1e-6);
    assert_eq!(report["blank_length_mm"], report["cut"]["blank_mm"]);
    assert_eq!(keys(&report["cut"]).len(), 4);
    assert_eq!(report["cut"]["basis"], "theory");
}

#[test]
fn overlap_and_bite_follow_from_the_points() {
    let bench = Bench::new();
    bench.write("tube.csv", table(&POINTS, CLR));
    let (_, report) = bench.report("tube.csv", &["--tube", "50.8x1.5"]);
    let wanted = Recomputed::of(&POINTS, CLR);
    let mut across = 0;
    for bend in 1..POINTS.len() - 2 {
        let clamp = &report["bends"][bend]["clamp"];
        let overlap = (CLAMP - wanted.straights[bend]).max(0.0);
        close(&clamp["overlap_mm"], overlap, 1e-6);
        close(&clamp["bite_mm"], wanted.bite(bend, CLAMP), 1e-4);
        across += usize::from(overlap > 0.0);
    }
    assert!(across >= 2, "only {across} clamps lie across an arc, which proves little");
}

/// A deep bend, then a second one closer than the clamp is long: the straight that is needed is the one
/// at which the clamp bites 2 mm, the limit of the built-in shop (common practice, no source).
#[test]
fn the_straight_that_is_needed_is_the_one_at_which_the_clamp_just_closes() {
    let bench = Bench::new();
    let (deep, limit) = (76.2, 2.0_f64);
    let u = |between: f64| {
        let leg = between + 2.0 * deep;
        [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, leg, 0.0], [800.0, leg, 0.0]]
    };
    let needs = CLAMP - deep * (1.0 - limit / deep).acos();
    for (between, code) in [(60.0, 1), (needs - 0.01, 1), (needs + 0.01, 0), (CLAMP - 1.0, 0), (CLAMP + 1.0, 0)] {
        bench.write("u.csv", table(&u(between), deep));
        let (exit, report) = bench.report("u.csv", &["--tube", "50.8x1.5"]);
        close(&report["bends"][1]["clamp"]["needs_straight_mm"], needs, 1e-6);
        assert_eq!(exit, code, "{between} mm: {}", report["verdict"]["text"]);
    }
}

/// Common practice, no source: 50.8 × 1.5 stainless on a 1.5D die with a 125 mm clamp. Straights of 125 mm
/// or more pass whatever the angles.
#[test]
fn straights_as_long_as_the_clamp_pass_whatever_the_angles() {
    let bench = Bench::new();
    for angle_deg in [1.0_f64, 20.0, 45.0, 90.0, 120.0, 150.0] {
        let angle = angle_deg.to_radians();
        let leg = 125.0001 + CLR * (angle / 2.0).tan() + CLR;
        let a = [700.0, 0.0, 0.0];
        let b = [a[0] + leg * angle.cos(), leg * angle.sin(), 0.0];
        let c = [b[0], b[1], 400.0];
        bench.write("two.csv", table(&[[0.0, 0.0, 0.0], a, b, c], CLR));
        let (code, report) = bench.report("two.csv", &["--tube", "50.8x1.5"]);
        assert_eq!((code, &report["verdict"]["severity"]), (0, &"none".into()), "{angle_deg}°: {report}");
    }
}

/// Below that the clamp reaches over the arc, and a shallow bend ahead allows more than a deep one.
#[test]
fn a_shallow_bend_ahead_allows_more_overlap_than_a_deep_one() {
    let bench = Bench::new();
    let needs = |angle_deg: f64| {
        let angle = angle_deg.to_radians();
        let tangent = CLR * (angle / 2.0).tan();
        let leg = 90.0 + tangent + CLR;
        let a = [400.0, 0.0, 0.0];
        let b = [a[0] + leg * angle.cos(), leg * angle.sin(), 0.0];
        let out = [b[0], b[1], 400.0];
        bench.write("pair.csv", table(&[[0.0, 0.0, 0.0], a, b, out], CLR));
        let (_, report) = bench.report("pair.csv", &["--tube", "50.8x1.5"]);
        report["bends"][1]["clamp"]["needs_straight_mm"].as_f64().unwrap()
    };
    let (shallow, middling, deep) = (needs(2.0), needs(10.0), needs(90.0));
    assert!(shallow < middling && middling < deep && deep < CLAMP, "{shallow} {middling} {deep}");
}

/// A half turn has no tangent length, and a radius without a die set has no clamp: both are null.
#[test]
fn what_has_no_value_is_null() {
    let bench = Bench::new();
    bench.write("odd.csv", table(&[[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 500.0, 0.0]], 83.0));
    let (code, report) = bench.report("odd.csv", &["--tube", "50.8x1.5"]);
    assert_eq!(code, 1);
    assert_eq!(report["bends"][0]["clamp"], Value::Null);
    assert!(report["findings"].as_array().unwrap().iter().any(|finding| finding["fault"] == "no-die-for-radius"));
}
