//! Cures that are offered cure: each one of every finding on drawn parts is tried, and its finding goes or eases.
#![allow(clippy::unwrap_used, missing_docs)]

use elbowroom_bending::specimen::{change, clamp_of, own_line, part, row_at, seam_at, shop};
use elbowroom_bending::{Finding, Part, Severity, Shop, Words, solve};
use elbowroom_geometry::Length;
use proptest::prelude::*;

/// Straights, rotations, angles and radii that people draw.
fn a_row() -> impl Strategy<Value = (f64, f64, f64, f64)> {
    (
        prop::sample::select(vec![0.0, 20.0, 50.0, 80.0, 100.0, 108.0, 118.0, 125.0, 150.0, 300.0, 2500.0]),
        prop::sample::select(vec![0.0, 45.0, 90.0, 180.0, -90.0, 30.0]),
        prop::sample::select(vec![0.0, 10.0, 30.0, 45.0, 90.0, 120.0, 180.0, 185.0]),
        prop::sample::select(vec![76.2, 76.2, 76.2, 101.6, 90.0]),
    )
}

fn a_part() -> impl Strategy<Value = Part> {
    let clamp = prop::sample::select(vec![None, Some(50.0), Some(80.0), Some(100.0), Some(125.0)]);
    let die = prop::sample::select(vec![None, None, Some("50.8 at 2D"), Some("60.3 at 1.5D"), Some("gone")]);
    let tail = prop::sample::select(vec![10.0, 50.0, 100.0, 150.0, 300.0]);
    let seam = prop::sample::select(vec![None, Some(0.0), Some(90.0)]);
    (prop::collection::vec(a_row(), 1..5), tail, clamp, die, seam).prop_map(|(rows, tail, clamp, die, seam)| {
        let rows = rows.into_iter().map(|(straight, rotation, angle, clr)| row_at(straight, rotation, angle, clr));
        let mut part = part(rows.collect(), tail).unwrap();
        part.tooling.clamp = clamp.map(clamp_of);
        part.tooling.die = die.map(str::to_owned);
        part.tooling.seam_start = seam.map(seam_at);
        part
    })
}

/// Whether a finding is gone or milder, or what it measures has come nearer to its limit.
fn eased(before: &Finding, after: &[Finding]) -> bool {
    let what = |finding: &Finding| (finding.fault, finding.place.bend, finding.place.straight, finding.unit);
    let same = |other: &&Finding| what(other) == what(before);
    let off = |finding: &Finding| (finding.measured - finding.limit).abs();
    after.iter().find(same).is_none_or(|left| left.severity < before.severity || off(left) < off(before) - 1e-9)
}

fn tried(part: &Part, shop: &Shop) -> Result<(), TestCaseError> {
    // Extra stock that is asked for is on the blank already; its cure writes it into the part and the note stays.
    let before = solve(part, shop);
    let words = Words::new(part, shop, &before);
    for finding in before.findings.iter().filter(|finding| !finding.is_stock()) {
        for cure in &finding.cures(&words) {
            let cured = cure.edit().applied_to(part);
            let label = cure.label(&words);
            prop_assert!(cured.is_ok(), "{}: \"{label}\": {:?}", finding.fault, cured.err());
            let after = solve(&cured.unwrap(), shop).findings;
            prop_assert!(eased(finding, &after), "\"{label}\" leaves {}: {after:#?}", finding.text(&words));
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn every_cure_eases_its_finding(part in a_part(), measured in any::<bool>()) {
        let mut shop = shop();
        change(&mut shop.machine, |machine| machine.longest_blank = Length::from_mm(4000.0));
        if measured {
            for die in 0..shop.die_sets.len() {
                shop.springback.push(own_line(&shop.die_sets[die], 1.0, 0.025));
            }
        }
        tried(&part, &shop)?;
    }
}

/// A finding that is read beside another part has no cure there, and nothing falls.
#[test]
fn of_another_part_there_is_no_cure() {
    let rows = vec![row_at(300.0, 0.0, 90.0, 76.2), row_at(20.0, 0.0, 90.0, 76.2)];
    let (part, shop) = (part(rows.clone(), 300.0).unwrap(), shop());
    let one = elbowroom_bending::specimen::part(rows[..1].to_vec(), 300.0).unwrap();
    let (solved, other) = (solve(&part, &shop), solve(&one, &shop));
    let (mine, its) = (Words::new(&part, &shop, &solved), Words::new(&one, &shop, &other));
    let at_second: Vec<_> = solved.findings.iter().filter(|finding| finding.place.bend == Some(1)).collect();
    assert!(at_second.iter().any(|finding| !finding.cures(&mine).is_empty()));
    assert!(at_second.iter().all(|finding| finding.cures(&its).is_empty()));
}

/// A finding is not eased by being there again.
#[test]
fn the_same_finding_again_is_not_eased() {
    let part = part(vec![row_at(20.0, 0.0, 90.0, 76.2), row_at(20.0, 0.0, 90.0, 76.2)], 300.0).unwrap();
    let findings = solve(&part, &shop()).findings;
    let stop = findings.iter().find(|finding| finding.severity == Severity::Stop).unwrap();
    assert!(!eased(stop, &findings) && eased(stop, &[]));
}
