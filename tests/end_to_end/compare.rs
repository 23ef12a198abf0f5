//! `compare`: every tooling of the shop on one part, and what the drawing would have to be.

use serde_json::Value;

use super::support::{Bench, table};

const PLAIN: [&str; 4] = ["--tube", "60.3x2", "--shop", "built-in"];

fn compared(bench: &Bench, file: &str, more: &[&str]) -> (i32, Value) {
    let ran = bench.run(&[&["compare", file, "--format", "json"], more].concat());
    assert_eq!(ran.err, "");
    (ran.code.unwrap(), serde_json::from_str(&ran.out).unwrap())
}

/// Corner after corner of 90°, the second straight 230 mm between vertices, 49 mm between arcs.
const CLOSE: [[f64; 3]; 4] = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 230.0, 0.0], [400.0, 230.0, 450.0]];

#[test]
fn each_row_is_what_check_says_of_that_tooling() {
    let bench = Bench::new();
    bench.write("close.csv", table(&CLOSE, 90.5));
    let (code, report) = compared(&bench, "close.csv", &PLAIN);
    assert_eq!(report["report"], "elbowroom-compare/1");
    let rows = report["rows"].as_array().unwrap();
    // Two die sets of the built-in shop take 60.3 mm, four clamps each, from either end.
    assert_eq!(rows.len(), 2 * 4 * 2);
    assert_eq!(code, i32::from(rows.iter().all(|row| row["severity"] == "stop")));
    for row in rows.iter().filter(|row| row["from"] == "start" && row["changed_clr_mm"].is_null()) {
        let clamp = row["clamp_mm"].to_string();
        let tooling = ["--die", row["die"].as_str().unwrap(), "--clamp", &clamp];
        let (_, check) = bench.report("close.csv", &[&PLAIN[..], &tooling].concat());
        assert_eq!(check["verdict"]["severity"], row["severity"], "{row}");
        assert_eq!(check["lead_trim_mm"], row["lead_trim_mm"]);
        let first = &check["findings"][0];
        assert_eq!((&first["fault"], &first["bend"]), (&row["worst"]["fault"], &row["worst"]["bend"]), "{row}");
    }
}

#[test]
fn best_comes_first_and_the_last_resort_is_named() {
    let bench = Bench::new();
    bench.write("close.csv", table(&CLOSE, 90.5));
    let (_, report) = compared(&bench, "close.csv", &PLAIN);
    let stops: Vec<bool> = report["rows"].as_array().unwrap().iter().map(|row| row["severity"] == "stop").collect();
    assert!(stops.windows(2).all(|pair| pair[0] <= pair[1]), "{stops:?}");
    // 3 mm between two arcs of 90°: no clamp closes on that.
    let touching = [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 184.0, 0.0], [400.0, 184.0, 450.0]];
    bench.write("touching.csv", table(&touching, 90.5));
    let (code, report) = compared(&bench, "touching.csv", &[&PLAIN[..], &["--die", "60.3 on 90.5"]].concat());
    assert_eq!((code, &report["only_compound_cut"]), (1, &Value::Bool(true)));
    let advice = report["advice"].as_str().unwrap();
    assert!(advice.contains("compound-cut") && advice.contains("a one-off will rarely pay"), "{advice}");
}

#[test]
fn the_straight_that_is_needed_is_enough_and_no_less_is() {
    let bench = Bench::new();
    bench.write("close.csv", table(&CLOSE, 90.5));
    let chosen = [&PLAIN[..], &["--clamp", "110"]].concat();
    let (_, report) = compared(&bench, "close.csv", &chosen);
    let second = &report["requirements"][1];
    assert_eq!((second["bend"].as_u64(), second["bend_before"].as_u64()), (Some(2), Some(1)));
    let (straight, closes) = (second["straight_mm"].as_f64().unwrap(), second["closes_from_mm"].as_f64().unwrap());
    assert!((straight - (230.0 - 2.0 * 90.5)).abs() < 1e-9);
    // R(1 - cos(s/R)) = 2 mm: the clamp may reach so far over a deep arc (circle geometry, by hand).
    let over = 90.5 * (1.0_f64 - 2.0 / 90.5).acos();
    assert!((closes - (110.0 - over)).abs() < 1e-6, "{closes}");
    for (more, stopped) in [(0.01, false), (-0.01, true)] {
        let mut longer = CLOSE;
        for point in &mut longer[2..] {
            point[1] += closes - straight + more;
        }
        bench.write("longer.csv", table(&longer, 90.5));
        let (_, check) = bench.report("longer.csv", &chosen);
        let findings = check["findings"].as_array().unwrap();
        assert_eq!(findings.iter().any(|finding| finding["fault"] == "straight-too-short"), stopped, "{more}");
    }
    let radii: Vec<f64> =
        report["radii"].as_array().unwrap().iter().map(|radius| radius["clr_mm"].as_f64().unwrap()).collect();
    assert_eq!(radii, [90.5, 120.6]);
}

#[test]
fn from_the_finish_the_same_straight_lies_under_the_clamp_of_the_other_bend() {
    let bench = Bench::new();
    // 49 mm between two arcs: from the finish bend 2 is made first, and bend 1 on what lies between them.
    bench.write("close.csv", table(&CLOSE, 90.5));
    let finish = [&PLAIN[..], &["--clamp", "110", "--from", "finish"]].concat();
    let (_, report) = compared(&bench, "close.csv", &finish);
    assert_eq!(report["requirements_from"], "finish");
    let pairs: Vec<_> =
        report["requirements"].as_array().unwrap().iter().map(|one| (&one["bend"], &one["bend_before"])).collect();
    assert_eq!(pairs, [(&Value::from(2), &Value::Null), (&Value::from(1), &Value::from(2))]);
    // What the program from the finish says of that straight, it says of the same bend.
    let last = &report["requirements"][1];
    assert!(last["straight_mm"].as_f64().unwrap() < last["closes_from_mm"].as_f64().unwrap());
    let ran = bench.run(&[&["program", "close.csv"], &finish[..]].concat());
    assert_eq!(ran.code, Some(1));
    assert!(ran.out.contains("Bend 1: the straight between bends 1 and 2 is 49.0 mm"), "{}", ran.out);
    let ran = bench.run(&[&["compare", "close.csv"], &finish[..]].concat());
    assert!(ran.out.contains("on the chosen tooling, bent from the finish"), "{}", ran.out);
}

#[test]
fn the_table_is_told_in_words_too() {
    let bench = Bench::new();
    bench.write("close.csv", table(&CLOSE, 90.5));
    let ran = bench.run(&[&["compare", "close.csv"], &PLAIN[..]].concat());
    assert_eq!(ran.err, "");
    for words in ["best first", "60.3 on 120.6", "finish", "Closes from", "CLR that the shop has dies for", "local law"]
    {
        assert!(ran.out.contains(words), "{words}:\n{}", ran.out);
    }
}

#[test]
fn a_tube_that_no_die_takes_is_1_and_told() {
    let bench = Bench::new();
    bench.write("close.csv", table(&CLOSE, 90.5));
    let ran = bench.run(&["compare", "close.csv", "--tube", "77x2", "--shop", "built-in"]);
    assert_eq!(ran.code, Some(1), "{ran:?}");
    assert!(ran.out.contains("no die set with a clamp for 77.0 mm tube"), "{}", ran.out);
    bench.refused(&["compare", "close.csv"], &["--tube 60.3x2"]);
    bench.refused(&["compare", "nowhere.csv", "--tube", "60.3x2"], &["nowhere.csv"]);
}
