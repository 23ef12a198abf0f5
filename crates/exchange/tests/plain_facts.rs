//! The reports say of each figure and word what it is, and not what stands beside it.

use elbowroom_bending::specimen::{bent, part, row};
use elbowroom_bending::{End, Hand, Part, Severity, Words, solve};
use elbowroom_exchange::report::{TextContext, compare_to_json, to_json, to_text};
use elbowroom_workbench::file::built_in_shop;
use serde_json::Value;

/// Notes, cautions and stops, and two ends that are short by different lengths.
fn busy(from: End) -> Part {
    let rows = vec![row(90.0, 0.0, 45.0), row(115.0, 60.0, 60.0), row(60.0, 180.0, 90.0), row(108.5, 30.0, 20.0)];
    bent(&part(rows, 40.0).unwrap(), from, Hand::Right)
}

#[test]
fn severities_and_trims_of_the_text_report_are_their_own() {
    let shop = elbowroom_bending::specimen::shop();
    for from in [End::Start, End::Finish] {
        let part = busy(from);
        let solved = solve(&part, &shop);
        let text = to_text(&part, &solved, TextContext { shop: &shop, shop_from: "test" });
        let words = Words::new(&part, &shop, &solved);
        let mut seen = [false; 3];
        for (index, finding) in solved.told(&words).iter().enumerate() {
            let (at, word) = match finding.severity {
                Severity::Note => (0, "Note"),
                Severity::Caution => (1, "Caution"),
                Severity::Stop => (2, "Stop"),
            };
            seen[at] = true;
            let line = format!("{}. {word}: {}", index + 1, finding.text);
            assert!(text.contains(&line), "{line}\n{text}");
        }
        assert_eq!(seen, [true; 3], "{text}");
        let figure = |name: &str| -> f64 {
            let line = text.lines().find(|line| line.starts_with(name)).unwrap();
            line.split_whitespace().rev().nth(1).unwrap().trim_start_matches('~').parse().unwrap()
        };
        // In the order of the drawing, whichever end is bent first.
        let [start, finish] = solved.from.first_before(solved.trims_in_order_mm());
        assert!((start - finish).abs() > 5.0, "{start} {finish}");
        let figures = [figure("Trim at the start"), figure("Trim at the finish")];
        assert!((figures[0] - start).abs() < 0.06 && (figures[1] - finish).abs() < 0.06, "{text}");
        assert!((figure("Blank to cut") - solved.blank_length_mm).abs() < 0.06 && !text.contains("Blank as drawn"));
    }
}

/// A measure that springback goes into rests on theory, the machine's length on common practice: in each report.
#[test]
fn what_a_measure_and_its_limit_rest_on_is_not_exchanged() {
    let shop = elbowroom_bending::specimen::shop();
    let long = part(vec![row(4000.0, 0.0, 90.0)], 4000.0).unwrap();
    let solved = solve(&long, &shop);
    let read = |text: String| serde_json::from_str::<Value>(&text).unwrap();
    let report = read(to_json(&long, &shop, &solved).unwrap());
    let findings = report["findings"].as_array().unwrap();
    let found = findings.iter().find(|finding| finding["fault"] == "blank-too-long").unwrap();
    let compared = elbowroom_bending::compare::compare(&long, &shop);
    let required = elbowroom_bending::requirements::requirements(&long, &shop, &solved);
    let rows = read(compare_to_json(&compared, &required).unwrap())["rows"].clone();
    let worst =
        rows.as_array().unwrap().iter().map(|row| &row["worst"]).find(|worst| worst["fault"] == "blank-too-long");
    for finding in [found, worst.unwrap()] {
        assert_eq!(
            (&finding["measured_basis"], &finding["limit_basis"]),
            (&"theory".into(), &"common_practice".into())
        );
        assert_eq!(finding["limit"].as_f64(), Some(6000.0));
        assert!(finding["measured"].as_f64().unwrap() > 8000.0);
    }
}

/// Mild steel weighs 7,850 kg a cubic metre (EN 1991-1-1, table A.4: 77.0 to 78.5 kN/m³): a tube weighs that times the
/// area of its ring, π/4 (OD² − ID²), times the length of its blank.
#[test]
fn a_blank_weighs_what_its_steel_does() {
    let shop = built_in_shop();
    let mut drawn = part(vec![row(300.0, 0.0, 90.0), row(200.0, 40.0, 60.0)], 60.0).unwrap();
    drawn.tube = drawn.tube.of_material("mild steel");
    let report: Value = serde_json::from_str(&to_json(&drawn, &shop, &solve(&drawn, &shop)).unwrap()).unwrap();
    let number = |field: &str| report[field].as_f64().unwrap();
    let ring_m2 = std::f64::consts::FRAC_PI_4 * (0.0508_f64.powi(2) - 0.0478_f64.powi(2));
    let weighs = |length_mm: f64| 7850.0 * ring_m2 * length_mm / 1000.0;
    for (mass, length) in [("blank_mass_kg", "blank_length_mm"), ("mass_kg", "developed_length_mm")] {
        let (found, wanted) = (number(mass), weighs(number(length)));
        assert!((found - wanted).abs() < 0.006 * wanted, "{mass}: {found}, {wanted}");
    }
    assert!(number("blank_mass_kg") > number("mass_kg") * 1.01, "what is cut off weighs too");
}
