//! Findings speak in the unit that the part shows, and find the same whichever it is.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::compare::compare;
use elbowroom_bending::plan::plan;
use elbowroom_bending::setup::{Setup, UNSURE_MARK};
use elbowroom_bending::specimen::{Judged, judged as solve};
use elbowroom_bending::specimen::{OD_MM, change, clamp_of, part, row_at, shop};
use elbowroom_bending::{Edit, Part, Told, ToldCure};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::{LengthUnit, parse_length};
use proptest::prelude::*;

/// A text with every length in a unit replaced by a mark.
fn without_lengths(text: &str, unit: LengthUnit) -> String {
    let is_edge = |c: char| "(),.;:?\u{201c}\u{201d}".contains(c);
    let words: Vec<&str> = text.split(' ').collect();
    let mut out: Vec<&str> = Vec::new();
    for word in words {
        let is_unit = word.trim_matches(is_edge) == unit.symbol();
        let after_number = out.last().is_some_and(|last: &&str| {
            let figure = last.trim_start_matches('(').trim_start_matches(UNSURE_MARK);
            figure.parse::<f64>().is_ok()
        });
        if is_unit && after_number {
            let number = out.pop().unwrap();
            if number.starts_with('(') {
                out.push("(");
            }
            out.push("<length>");
            let rest = word.trim_start_matches(unit.symbol());
            if !rest.is_empty() {
                out.push(rest);
            }
        } else {
            out.push(word);
        }
    }
    out.join(" ")
}

fn in_unit(part: &Part, unit: LengthUnit) -> Part {
    Part { units: unit, ..part.clone() }
}

/// Everything that a solved part says.
fn texts(solved: &Judged) -> Vec<String> {
    let of_cure = |cure: &ToldCure| [cure.label.clone(), cure.risk.to_string()];
    let of_finding = |finding: &Told| {
        let own = [finding.text.clone(), finding.verdict.clone()];
        own.into_iter().chain(finding.cures.iter().flat_map(of_cure)).collect::<Vec<_>>()
    };
    std::iter::once(solved.verdict.text.clone()).chain(solved.findings.iter().flat_map(of_finding)).collect()
}

/// The length that an edit sets by a cure's label, where it sets one that was rounded up.
fn rounded(edit: &Edit) -> Option<Length> {
    match edit {
        Edit::SetStraight(_, length) | Edit::SetStock(_, length) => Some(*length),
        _ => None,
    }
}

fn busy_part() -> impl Strategy<Value = Part> {
    let radius = prop_oneof![8 => Just(76.2), 1 => Just(101.6), 1 => Just(80.0), 1 => Just(20.0)];
    let row = (-60.0..200.0, -180.0..180.0, prop_oneof![1.0..10.0, 10.0..195.0], radius)
        .prop_map(|(straight, rotation, angle, clr)| row_at(straight, rotation, angle, clr));
    let clamp = prop_oneof![Just(None), Just(Some(50.0)), Just(Some(100.0))];
    (prop::collection::vec(row, 1..6), -20.0..300.0, clamp, 0.0..90.0).prop_map(|(rows, tail, clamp, stock)| {
        let mut part = part(rows, tail).unwrap();
        part.tooling.clamp = clamp.map(clamp_of);
        change(&mut part.stock, |own| own.tail = Length::from_mm(stock));
        part
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// The same findings with the same figures, and texts that differ in nothing but the lengths.
    #[test]
    fn the_unit_changes_nothing_but_lengths_in_texts(part in busy_part(), long in any::<bool>()) {
        let mut shop = shop();
        let longest = Length::from_mm(if long { 6000.0 } else { 100.0 });
        change(&mut shop.machine, |machine| machine.longest_blank = longest);
        let metric = solve(&part, &shop);
        let mut compared = 0;
        for unit in LengthUnit::ALL {
            let shown = solve(&in_unit(&part, unit), &shop);
            prop_assert_eq!(metric.findings.len(), shown.findings.len());
            for (a, b) in metric.findings.iter().zip(&shown.findings) {
                prop_assert_eq!((a.fault, a.severity, &a.place, a.unit), (b.fault, b.severity, &b.place, b.unit));
                prop_assert_eq!((a.measured, a.limit), (b.measured, b.limit));
                for (x, y) in a.cures.iter().zip(&b.cures).filter(|_| a.cures.len() == b.cures.len()) {
                    match (rounded(&x.edit), rounded(&y.edit)) {
                        // Rounded up to another step: never more than a step of 0.001 ft apart.
                        (Some(x), Some(y)) => prop_assert!((x - y).mm().abs() < 0.305, "{x:?} {y:?}"),
                        _ => prop_assert_eq!(&x.edit, &y.edit),
                    }
                }
            }
            // Rounded up to another step, a cure may be that of another finding as well, or bring something: it is tried.
            let cures = |judged: &Judged| judged.findings.iter().map(|told| told.cures.len()).collect::<Vec<_>>();
            let alike = cures(&metric) == cures(&shown);
            compared += usize::from(alike);
            for (a, b) in texts(&metric).iter().zip(&texts(&shown)).filter(|_| alike) {
                prop_assert_eq!(without_lengths(a, LengthUnit::Millimetre), without_lengths(b, unit), "{} / {}", a, b);
                prop_assert!(unit == LengthUnit::Millimetre || !b.split(' ').any(|word| word.starts_with("mm")), "{}", b);
            }
        }
        // Millimetres, centimetres and metres round alike.
        prop_assert!(compared >= 3);
    }

    /// What a label says is what its edit does, to the digit.
    #[test]
    fn labels_say_what_their_edits_do(part in busy_part()) {
        for unit in LengthUnit::ALL {
            let solved = solve(&in_unit(&part, unit), &shop());
            for cure in solved.findings.iter().flat_map(|finding| &finding.cures) {
                // Stock that is taken off whole needs no figure.
                let Some(length) = rounded(&cure.edit).filter(|length| *length != Length::ZERO) else { continue };
                let shown = unit.shown(length.mm()).to_string();
                prop_assert!(cure.label.contains(&shown), "{} is not {shown}", cure.label);
                prop_assert!((parse_length(&shown, unit).unwrap() - length).mm().abs() < 1e-9, "{}", cure.label);
            }
        }
    }
}

#[test]
fn a_part_in_inches_by_hand() {
    // 2 in tube at 3 in CLR with 125 mm clamp (4.921 in), 3.43 in of straight: 76.2 (1 - cos(s / 76.2)) = 2 mm at
    // s = 17.50 mm (G07), so 107.50 mm are needed, which is 4.2324 in: upwards 4.233 in, in round steps 4.24 in.
    let rows = vec![row_at(300.0, 0.0, 90.0, 76.2), row_at(87.122, 0.0, 90.0, 76.2)];
    let part = in_unit(&part(rows, 400.0).unwrap(), LengthUnit::Inch);
    assert_eq!(part.tube.od.mm(), OD_MM);
    let solved = solve(&part, &shop());
    assert_eq!(solved.verdict.text, "Cannot be bent as drawn: ~0.803 in more straight is needed before bend 2.");
    let finding = solved.findings.iter().find(|finding| finding.fault == "straight-too-short").unwrap();
    assert_eq!(finding.cures[0].label, "Lengthen the straight to 4.240 in");
    assert_eq!(finding.cures[0].edit, Edit::SetStraight(part.straight_id(1), Length::from_mm(4.24 * 25.4)));
    assert!(finding.text.contains("the straight before it is 3.430 in, and the 4.921 in clamp needs ~4.233 in here"));
}

#[test]
fn setup_and_tooling_follow_the_unit() {
    let rows = vec![row_at(300.0, 0.0, 90.0, 76.2), row_at(160.0, 40.0, 60.0, 101.6)];
    let part = in_unit(&part(rows, 40.0).unwrap(), LengthUnit::Inch);
    let shop = shop();
    let setup = Setup::of(&plan(&part, &shop).unwrap(), &shop);
    let values = setup.items.iter().map(|item| item.value.as_str());
    for text in values.chain(setup.cautions.iter().map(|caution| caution.text.as_str())) {
        assert!(!text.split(' ').any(|word| word.starts_with("mm")), "{text}");
    }
    assert!(setup.items.iter().any(|item| item.value == "2 × 0.0591 in 304 stainless, welded"), "{setup:?}");
    let labels: Vec<String> = compare(&part, &shop).rows.iter().map(|row| row.edit.label(&part)).collect();
    assert!(
        labels.contains(&"take die set 50.8 at 1.5D with the 4.921 in clamp, bent from the start".to_owned()),
        "{labels:?}"
    );
}
