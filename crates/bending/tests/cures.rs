//! Cures that are offered cure: each one of every finding on drawn parts is tried, and its finding goes or eases.
#![allow(clippy::unwrap_used, missing_docs)]

use elbowroom_bending::specimen::{change, clamp_of, own_line, part, row_at, seam_at, shop};
use elbowroom_bending::{Edit, Facts, Finding, Hold, NodeId, Part, Severity, Shop, Solved, Trials, Words, solve};
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
            prop_assert!(eased(finding, &after), "\"{label}\" leaves {}: {after:#?}", finding.found(&words));
        }
    }
    Ok(())
}

/// What a sentence about a cure says is what is found after it; and what is offered with one finding is offered with no
/// other.
fn told_truly(part: &Part, shop: &Shop) -> Result<(), TestCaseError> {
    let before = solve(part, shop);
    let told = before.told(&Words::new(part, shop, &before));
    let mut offered: Vec<&Edit> = Vec::new();
    for (index, finding) in told.iter().enumerate() {
        for cure in &finding.cures {
            prop_assert!(!offered.contains(&&cure.edit), "{} is offered twice", cure.label);
            offered.push(&cure.edit);
            let after = solve(&cure.edit.applied_to(part).unwrap(), shop);
            let spot = |solved: &Solved, facts: &Facts| {
                let straight = |straight| (None, Some(solved.nodes.straight(straight)));
                let bend = |bend| (Some(solved.nodes.bend(bend)), None);
                (
                    facts.fault,
                    facts.place.bend.map_or_else(|| facts.place.straight.map_or((None, None), straight), bend),
                )
            };
            let own = spot(&before, &finding.facts);
            let left: Vec<_> = after.findings.iter().filter(|left| spot(&after, left) == own).collect();
            let said = &cure.outcome;
            let worst = left.iter().map(|left| left.severity).max();
            prop_assert_eq!(said.starts_with("Cures this"), left.is_empty(), "{}: {}: {:#?}", cure.label, said, left);
            if let Some(milder) = worst.filter(|worst| *worst < finding.severity) {
                prop_assert!(said.starts_with(&format!("Eases this to a {}", milder.word())), "{said}");
            }
            prop_assert_eq!(said.ends_with("nothing else is found."), after.findings.is_empty(), "{}", said);
            let was = |left: &Finding| {
                before
                    .findings
                    .iter()
                    .any(|one| spot(&before, one) == spot(&after, left) && one.severity >= left.severity)
            };
            let brings: Vec<_> = after.findings.iter().filter(|left| !was(left)).collect();
            prop_assert_eq!(said.contains("but brings"), !brings.is_empty(), "{}: {:#?}", said, brings);
            prop_assert!(brings.iter().all(|brought| brought.severity <= finding.severity), "{}", said);
            let stay = after.findings.len() - brings.len();
            prop_assert_eq!(said.contains("leaves "), stay > 0, "{}", said);
            for (left, one) in
                [(brings, "brings"), (after.findings.iter().filter(|left| was(left)).collect(), "leaves")]
            {
                if let [only] = left[..] {
                    let at = only.place.bend.map_or(String::new(), |bend| format!(" at bend {}", bend + 1));
                    let named = format!("{one} a {}{at} ({})", only.severity.word(), only.title());
                    prop_assert!(said.contains(&named), "{said} lacks {named}");
                }
            }
        }
        if let Some(first) = finding.cured_with {
            prop_assert!(first < index && !told[first].cures.is_empty());
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn what_is_said_of_a_cure_is_what_comes_of_it(part in a_part()) {
        told_truly(&part, &shop())?;
    }

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

/// A die of another radius for the whole part: its radius for all bends is one cure, offered once.
#[test]
fn a_chosen_die_gives_its_radius_to_every_bend_at_once() {
    let rows = vec![row_at(300.0, 0.0, 90.0, 76.2), row_at(300.0, 90.0, 45.0, 76.2), row_at(300.0, 0.0, 30.0, 76.2)];
    let mut part = part(rows, 300.0).unwrap();
    part.tooling.die = Some("50.8 at 2D".to_owned());
    let solved = solve(&part, &shop());
    let told = solved.told(&Words::new(&part, &shop(), &solved));
    let stops: Vec<_> = told.iter().filter(|told| told.severity == Severity::Stop).collect();
    assert_eq!(stops.len(), 3);
    assert_eq!(stops[0].cures[0].label, "Bend everything at CLR 101.6 mm");
    assert_eq!(stops[0].cures[0].outcome, "Cures this and 2 more; nothing else is found.");
    assert_eq!(stops[0].cures[1].label, "Take the die set that fits (50.8 at 1.5D)");
    for other in &stops[1..] {
        assert_eq!((other.cures.len(), other.cured_with), (0, Some(0)), "{other:#?}");
        assert!(!other.text.contains("Bend everything"), "{}", other.text);
    }
    let cured = stops[0].cures[0].edit.applied_to(&part).unwrap();
    assert_eq!(cured.tooling.die.as_deref(), Some("50.8 at 2D"), "the new die stays");
    assert_eq!(solve(&cured, &shop()).findings, []);
}

/// A straight that an end is held against can't be had: such a cure is not offered.
#[test]
fn a_cure_that_what_is_held_refuses_is_not_offered() {
    let rows = vec![row_at(300.0, 0.0, 90.0, 76.2), row_at(20.0, 0.0, 90.0, 76.2)];
    let mut part = part(rows, 300.0).unwrap();
    let lengthens = |part: &Part| {
        let solved = solve(part, &shop());
        let told = solved.told(&Words::new(part, &shop(), &solved));
        told.iter().flat_map(|told| &told.cures).filter(|cure| cure.label.starts_with("Lengthen the straight")).count()
    };
    assert!(lengthens(&part) > 0);
    // All places held: no straight can change.
    for id in [0, 1, 2, 3] {
        part = Edit::Hold(NodeId::new(id), Hold::BOTH).applied_to(&part).unwrap();
    }
    assert_eq!(lengthens(&part), 0);
}

/// Where no more is tried, cures are offered with nothing said of what comes of them.
#[test]
fn what_is_not_tried_says_nothing_of_it() {
    let part = part(vec![row_at(300.0, 0.0, 90.0, 76.2), row_at(20.0, 0.0, 90.0, 76.2)], 300.0).unwrap();
    let shop = shop();
    let solved = solve(&part, &shop);
    let words = &Words::new(&part, &shop, &solved);
    let mut none = Trials::none();
    let untried = none.told(0, &solved, words);
    assert!(!untried.cures.is_empty() && untried.cures.iter().all(|cure| cure.outcome.is_empty()));
    assert!(Trials::default().told(0, &solved, words).cures.iter().all(|cure| cure.outcome.starts_with("Cures this")));
}

/// A finding is not eased by being there again.
#[test]
fn the_same_finding_again_is_not_eased() {
    let part = part(vec![row_at(20.0, 0.0, 90.0, 76.2), row_at(20.0, 0.0, 90.0, 76.2)], 300.0).unwrap();
    let findings = solve(&part, &shop()).findings;
    let stop = findings.iter().find(|finding| finding.severity == Severity::Stop).unwrap();
    assert!(!eased(stop, &findings) && eased(stop, &[]));
}

/// What brings something as grave is offered and says so: only a person can weigh that.
#[test]
fn a_cure_that_brings_something_as_grave_is_offered_with_a_word() {
    let shop = shop();
    let mut seen = 0;
    for (clamp, straight, angle) in [50.0, 80.0, 100.0, 125.0]
        .into_iter()
        .flat_map(|clamp| [20.0, 50.0, 80.0, 100.0, 118.0].map(|straight| (clamp, straight)))
        .flat_map(|(clamp, straight)| [30.0, 90.0, 120.0, 180.0].map(|angle| (clamp, straight, angle)))
    {
        let rows = vec![row_at(300.0, 0.0, angle, 76.2), row_at(straight, 90.0, angle, 76.2)];
        let mut part = part(rows, 300.0).unwrap();
        part.tooling.clamp = Some(clamp_of(clamp));
        let solved = solve(&part, &shop);
        for told in solved.told(&Words::new(&part, &shop, &solved)) {
            let same = format!("but brings a {} ", told.severity.word());
            seen += told.cures.iter().filter(|cure| cure.outcome.contains(&same)).count();
        }
    }
    assert!(seen > 0);
}
