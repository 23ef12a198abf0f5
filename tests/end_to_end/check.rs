//! `elbowroom check`: exit codes, the text report, tooling chosen by hand, the demo parts.

use super::support::{Bench, faults, table};

/// A plain bend with long legs, which passes on the built-in shop.
const PLAIN: [[f64; 3]; 3] = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 500.0, 0.0]];

/// A U of two quarter turns with 60 mm between them, which does not.
const CLOSE: [[f64; 3]; 4] = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 212.4, 0.0], [0.0, 212.4, 0.0]];

const TUBE: [&str; 2] = ["--tube", "50.8x1.5"];

#[test]
fn nothing_at_stop_is_0_and_something_is_1() {
    let bench = Bench::new();
    bench.write("plain.csv", table(&PLAIN, 76.2));
    bench.write("close.csv", table(&CLOSE, 76.2));
    let (code, report) = bench.report("plain.csv", &TUBE);
    assert_eq!((code, &report["verdict"]["severity"]), (0, &"none".into()));
    let (code, report) = bench.report("close.csv", &TUBE);
    assert_eq!((code, &report["verdict"]["severity"]), (1, &"stop".into()));
    assert!(faults(&report).contains(&"straight-too-short"), "{report}");
    for (file, code) in [("plain.csv", 0), ("close.csv", 1)] {
        let ran = bench.run(&["check", file, "--tube", "50.8x1.5"]);
        assert_eq!(ran.code, Some(code));
        assert_eq!(ran.err, "");
    }
}

#[test]
fn the_text_report_starts_with_the_verdict_and_holds_rows_findings_and_blank() {
    let bench = Bench::new();
    bench.write("close.csv", table(&CLOSE, 76.2));
    let (_, report) = bench.report("close.csv", &TUBE);
    let text = bench.run(&["check", "close.csv", "--tube", "50.8 x 1.5 mm"]).out;
    assert_eq!(text.lines().next().unwrap(), report["verdict"]["text"].as_str().unwrap());
    for finding in report["findings"].as_array().unwrap() {
        assert!(text.contains(finding["text"].as_str().unwrap()), "{text}");
        let check = elbowroom_bending::checks::named(finding["fault"].as_str().unwrap()).unwrap();
        assert!(text.contains(check.title), "{text}");
    }
    let places = [
        "50.8 × 1.5 mm 304 stainless, welded",
        "(built in)",
        "Rows,",
        "finish",
        "Findings",
        "Cure:",
        "Blank",
        "estimates until a trial bend",
    ];
    let at: Vec<_> = places.iter().map(|words| text.find(words).unwrap_or_else(|| panic!("{words}\n{text}"))).collect();
    assert!(at.is_sorted(), "the parts of the report are out of order: {at:?}\n{text}");
    let rows: Vec<_> = text.lines().skip_while(|line| !line.starts_with("Rows")).skip(2).take(3).collect();
    assert!(rows[0].starts_with('1') && rows[1].starts_with('2') && rows[2].starts_with("finish"), "{text}");
    assert!(rows[1].contains("  60.0  "), "the straight before bend 2: {}", rows[1]);
}

#[test]
fn a_table_needs_its_tube() {
    let bench = Bench::new();
    bench.write("plain.csv", table(&PLAIN, 76.2));
    bench.refused(&["check", "plain.csv"], &["plain.csv", "holds no tube", "--tube 60.3x2"]);
    for wrong in ["50.8", "50.8x", "x", "50.8x40", "0x0", "thick"] {
        bench.refused(&["check", "plain.csv", "--tube", wrong], &["--tube", "such as 60.3x2"]);
    }
}

#[test]
fn the_die_is_the_one_that_fits_unless_one_is_named() {
    let bench = Bench::new();
    bench.write("plain.csv", table(&PLAIN, 76.2));
    let named = bench.run(&["check", "plain.csv", "--tube", "50.8x1.5", "--die", "50.8 on 76.2"]);
    let fitting = bench.run(&["check", "plain.csv", "--tube", "50.8x1.5"]);
    assert_eq!(named.out, fitting.out);
    assert!(fitting.out.contains("50.8 on 76.2"), "{}", fitting.out);
    // A die for another radius is no die for this bend.
    let (code, report) = bench.report("plain.csv", &["--tube", "50.8x1.5", "--die", "50.8 on 101.6"]);
    assert_eq!(code, 1);
    assert!(faults(&report).contains(&"no-die-for-radius"), "{report}");
    let wanted = ["no die set named \"mine\"", "\"50.8 on 76.2\"", "\"60.3 on 90.5\""];
    bench.refused(&["check", "plain.csv", "--tube", "50.8x1.5", "--die", "mine"], &wanted);
}

#[test]
fn a_radius_that_no_die_bends_is_a_stop() {
    let bench = Bench::new();
    bench.write("odd.csv", table(&PLAIN, 83.0));
    let (code, report) = bench.report("odd.csv", &TUBE);
    assert_eq!(code, 1);
    assert!(faults(&report).contains(&"no-die-for-radius"), "{report}");
    assert_eq!(report["bends"][0]["clamp"], serde_json::Value::Null);
}

#[test]
fn the_clamp_is_the_longest_unless_one_is_named() {
    let bench = Bench::new();
    bench.write("plain.csv", table(&PLAIN, 76.2));
    let length = |more: &[&str]| {
        let (_, report) = bench.report("plain.csv", &[&TUBE[..], more].concat());
        (report["bends"][0]["clamp"]["length_mm"].as_f64().unwrap(), faults(&report).contains(&"clamp-not-in-shop"))
    };
    assert_eq!(length(&[]), (125.0, false));
    assert_eq!(length(&["--clamp", "80"]), (80.0, false));
    assert_eq!(length(&["--clamp", "8 cm"]), (80.0, false));
    // One that the shop does not own is taken as if it did, and said so.
    assert_eq!(length(&["--clamp", "100"]), (100.0, true));
    for wrong in ["0", "-5", "long", "nan"] {
        bench.refused(&["check", "plain.csv", "--tube", "50.8x1.5", "--clamp", wrong], &["--clamp", "such as 80"]);
    }
}

#[test]
fn a_shop_file_takes_the_place_of_the_built_in_shop() {
    let bench = Bench::new();
    bench.write("plain.csv", table(&PLAIN, 83.0));
    let built_in = std::fs::read_to_string(elbowroom_tests::root().join("assets/shop.ron")).unwrap();
    bench.write(
        "mine.ron",
        built_in.replace("clr_mm: 76.2", "clr_mm: 83.0").replace("name: \"Common practice\"", "name: \"Village\""),
    );
    let ran = bench.run(&["check", "plain.csv", "--tube", "50.8x1.5", "--shop", "mine.ron"]);
    assert_eq!(ran.code, Some(0), "{ran:?}");
    assert!(ran.out.contains("Village (mine.ron)"), "{}", ran.out);
    assert!(ran.out.contains("rest on common practice"), "{}", ran.out);
    // The mark goes when the shop's own figures replace it.
    bench.write("proved.ron", bench.read("mine.ron").replace("basis: common_practice", "basis: shop"));
    let proved = bench.run(&["check", "plain.csv", "--tube", "50.8x1.5", "--shop", "proved.ron"]);
    assert_eq!(proved.code, Some(0), "{proved:?}");
    assert!(!proved.out.contains("rest on common practice here"), "{}", proved.out);
    bench.refused(&["check", "plain.csv", "--tube", "50.8x1.5", "--shop", "none.ron"], &["none.ron", "cannot be read"]);
    bench.write("broken.ron", built_in.replacen("od_mm: 38.1", "od_mm: broad", 1));
    bench.refused(&["check", "plain.csv", "--tube", "50.8x1.5", "--shop", "broken.ron"], &["broken.ron, line "]);
}

#[test]
fn the_users_own_shop_is_used_and_named_and_can_be_passed_over() {
    let bench = Bench::new();
    bench.write("plain.csv", table(&PLAIN, 83.0));
    let built_in = std::fs::read_to_string(elbowroom_tests::root().join("assets/shop.ron")).unwrap();
    let folder = bench.path("home/config/elbowroom");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join("shop.ron"), built_in.replace("clr_mm: 76.2", "clr_mm: 83.0")).unwrap();
    let own = bench.run(&["check", "plain.csv", "--tube", "50.8x1.5"]);
    assert_eq!(own.code, Some(0), "{own:?}");
    assert!(own.out.contains("shop.ron, your own"), "{}", own.out);
    let built_in = bench.run(&["check", "plain.csv", "--tube", "50.8x1.5", "--shop", "built-in"]);
    assert_eq!(built_in.code, Some(1), "{built_in:?}");
}

#[test]
fn every_demo_part_runs_and_its_exit_code_is_its_verdict() {
    let bench = Bench::new();
    let folder = elbowroom_tests::root().join("demo-parts");
    let mut parts = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|extension| extension != "ron") || path.ends_with("expected.ron") {
            continue;
        }
        let file = path.to_str().unwrap();
        let (code, report) = bench.report(file, &[]);
        assert_eq!(code, i32::from(report["verdict"]["severity"] == "stop"), "{file}");
        for bend in report["bends"].as_array().unwrap() {
            let half_turn = bend["angle_deg"].as_f64().unwrap() >= 180.0;
            assert_eq!(bend["tangent_mm"].is_null(), half_turn, "{file}: {bend}");
        }
        let ran = bench.run(&["check", file]);
        assert_eq!(ran.code, Some(code), "{file}");
        assert!(ran.out.starts_with(report["verdict"]["text"].as_str().unwrap()), "{file}");
        parts += 1;
    }
    assert!(parts >= 6, "only {parts} demo parts");
}

#[test]
fn the_command_line_takes_the_place_of_what_a_part_file_says() {
    let bench = Bench::new();
    bench.write("plain.csv", table(&PLAIN, 76.2));
    assert_eq!(bench.run(&["convert", "plain.csv", "plain.ron", "--tube", "50.8x1.5"]).code, Some(0));
    let (code, report) = bench.report("plain.ron", &[]);
    assert_eq!((code, &report["tube"]["od_mm"]), (0, &50.8.into()));
    let (code, report) = bench.report("plain.ron", &["--tube", "60.3x2"]);
    assert_eq!((code, &report["tube"]["wall_mm"]), (1, &2.0.into()));
    assert!(faults(&report).contains(&"no-die-for-radius"), "{report}");
    let (_, report) = bench.report("plain.ron", &["--clamp", "50"]);
    assert_eq!(report["bends"][0]["clamp"]["length_mm"], 50.0);
}

/// The text report speaks in the unit that the part shows; the figures of the JSON report stay in mm.
#[test]
fn a_part_in_inches_is_told_in_inches() {
    let bench = Bench::new();
    let file = elbowroom_tests::root().join("demo-parts/pinched-corner.ron");
    let inches = std::fs::read_to_string(&file).unwrap();
    bench.write("inches.ron", &inches);
    bench.write("metric.ron", inches.replace("units: inch", "units: millimetre"));
    for task in ["check", "compare"] {
        let ran = bench.run(&[task, "inches.ron"]);
        assert!(ran.out.contains("Tube     2.5 × 0.065 in"), "{}", ran.out);
        assert!(ran.out.split([' ', '\n', ',', ';']).all(|word| word != "mm"), "{}", ran.out);
    }
    let (shown, metric) = (bench.report("inches.ron", &[]).1, bench.report("metric.ron", &[]).1);
    let (shown, metric) = (shown["findings"].as_array().unwrap(), metric["findings"].as_array().unwrap());
    assert_eq!(shown.len(), metric.len());
    for (shown, metric) in shown.iter().zip(metric) {
        for figure in ["fault", "from_mm", "to_mm", "measured", "limit", "unit"] {
            assert_eq!(shown[figure], metric[figure]);
        }
    }
    assert!(shown.iter().zip(metric).any(|(shown, metric)| shown["text"] != metric["text"]));
}
