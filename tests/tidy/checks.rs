//! What every check brings along: a manual page, a file, a bad and a good demo part.

use elbowroom_bending::checks::{About, REGISTRY};
use elbowroom_tests::expected;

use super::tree::{none_of, paths};

/// The headings of a manual page, in order.
const HEADINGS: [&str; 6] = [
    "What it looks for",
    "Why it matters",
    "How it is measured",
    "Limit and its source",
    "Example",
    "Cure and its risk",
];

/// The heading that comes last, where the work can hurt somebody.
const CAUTION: &str = "\nCaution";

#[test]
fn every_check_has_a_whole_manual_page() {
    let mut offences = Vec::new();
    assert!(REGISTRY.len() >= 11, "the registry holds only {} checks", REGISTRY.len());
    for check in REGISTRY {
        let at: Vec<_> = HEADINGS.iter().map(|heading| check.manual.find(heading)).collect();
        for (heading, place) in HEADINGS.iter().zip(&at) {
            if place.is_none() {
                offences.push(format!("{}: no heading \"{heading}\"", check.fault));
            }
        }
        if !at.is_sorted() {
            offences.push(format!("{}: the headings are out of order", check.fault));
        }
        if check.manual.find(CAUTION).is_some_and(|place| Some(place) < at[HEADINGS.len() - 1]) {
            offences.push(format!("{}: the caution comes last", check.fault));
        }
        if check.summary.is_empty() || !check.summary.ends_with('.') {
            offences.push(format!("{}: the summary is no sentence", check.fault));
        }
        if check.manual.len() < 600 {
            offences.push(format!("{}: the manual page is only {} letters", check.fault, check.manual.len()));
        }
    }
    none_of(&offences, "every check has a manual page");
    let cautious = REGISTRY.iter().filter(|check| check.manual.contains(CAUTION)).count();
    assert!(cautious * 2 > REGISTRY.len(), "only {cautious} manual pages say what can hurt");
}

#[test]
fn every_check_has_a_file_of_its_name() {
    let paths = paths();
    let file = |fault: &str| format!("crates/bending/src/checks/{}.rs", fault.replace('-', "_"));
    let missing: Vec<_> = REGISTRY.iter().map(|check| file(check.fault)).filter(|file| !paths.contains(file)).collect();
    none_of(&missing, "a check lies in the file of its name");
}

/// Whoever wants to tell findings apart asks a finding for a property.
#[test]
fn nobody_outside_the_checks_names_a_check() {
    let is_bound = |path: &str| {
        let is_program = path.starts_with("crates/") && path.contains("/src/") && path.ends_with(".rs");
        is_program && !path.starts_with("crates/bending/src/checks/") && !path.ends_with("/tests.rs")
    };
    let mut offences = Vec::new();
    for path in paths().into_iter().filter(|path| is_bound(path)) {
        let text = std::fs::read_to_string(elbowroom_tests::root().join(&path)).unwrap();
        // What stands behind the tests of a file are tests.
        let program = text.split("#[cfg(test)]").next().unwrap_or_default();
        for check in REGISTRY {
            if program.contains(&format!("\"{}\"", check.fault)) {
                offences.push(format!("{path}: {}", check.fault));
            }
        }
    }
    none_of(&offences, "checks are named among the checks only");
}

#[test]
fn every_check_has_a_bad_and_a_good_demo_part() {
    let expected = expected().unwrap();
    let mut offences = Vec::new();
    // What stands around a tube lies in no demo part; `every_fault_of_the_surroundings_is_shown` looks after those.
    for check in REGISTRY.iter().filter(|check| check.about != About::Around) {
        let bad = expected.iter().filter(|part| part.faults.iter().any(|fault| fault == check.fault)).count();
        if bad == 0 {
            offences.push(format!("{}: no demo part shows it", check.fault));
        }
        if bad == expected.len() {
            offences.push(format!("{}: no demo part is free of it", check.fault));
        }
    }
    none_of(&offences, "every check is shown by a demo part and missing from another");
}

#[test]
fn every_fault_of_the_surroundings_is_shown() {
    let shown = std::fs::read_to_string(elbowroom_tests::root().join("tests/end_to_end/around.rs")).unwrap();
    let is_missing = |fault: &&str| !shown.contains(&format!("\"{fault}\""));
    let faults = REGISTRY.iter().filter(|check| check.about == About::Around).map(|check| check.fault);
    let missing: Vec<_> = faults.filter(is_missing).map(String::from).collect();
    none_of(&missing, "every check of what stands around a tube is shown by a run of the program");
}

#[test]
fn every_demo_part_is_expected_and_every_expected_part_is_there() {
    let expected = expected().unwrap();
    let named: Vec<_> = expected.iter().map(|part| format!("demo-parts/{}", part.part)).collect();
    let there: Vec<_> = paths()
        .into_iter()
        .filter(|path| path.starts_with("demo-parts/") && path.ends_with(".ron") && path != "demo-parts/expected.ron")
        .collect();
    let mut offences: Vec<_> = there.iter().filter(|path| !named.contains(path)).cloned().collect();
    offences.extend(named.iter().filter(|path| !there.contains(path)).cloned());
    none_of(&offences, "demo-parts/expected.ron lists every demo part once");
    assert_eq!(named.len(), there.len(), "a part is listed twice");
}
