//! The demo parts give what `demo-parts/expected.ron` says of them, on the built-in shop.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::specimen::{Judged, judged};
use elbowroom_bending::{Path, Severity, solve};
use elbowroom_tests::{Expected, demo_parts, expected};
use elbowroom_workbench::file::{built_in_shop, read_part, write_part};

fn read(name: &str) -> elbowroom_bending::Part {
    let text = std::fs::read_to_string(demo_parts().join(name)).unwrap();
    read_part(&text, name).unwrap()
}

fn solved(name: &str) -> Judged {
    judged(&read(name), &built_in_shop())
}

fn told(expected: &Expected, solved: &Judged) -> Vec<String> {
    let mut faults: Vec<_> = solved.findings.iter().map(|finding| finding.fault.to_owned()).collect();
    faults.sort_unstable();
    faults.dedup();
    let severity = solved.verdict.severity.map_or("none", Severity::word);
    let mut offences = Vec::new();
    if severity != expected.severity || faults != expected.faults || !solved.verdict.text.starts_with(&expected.verdict)
    {
        offences.push(format!(
            "{}: expected {}, {:?}, {:?}; found {severity}, {:?}, {faults:?}",
            expected.part, expected.severity, expected.verdict, expected.faults, solved.verdict.text
        ));
    }
    offences
}

#[test]
fn every_demo_part_gives_what_is_expected() {
    let expected = expected().unwrap();
    assert!(expected.len() >= 6);
    let offences: Vec<_> = expected.iter().flat_map(|part| told(part, &solved(&part.part))).collect();
    assert!(offences.is_empty(), "\n{}", offences.join("\n"));
}

#[test]
fn every_demo_part_is_written_and_read_back_to_the_bit() {
    for expected in expected().unwrap() {
        let part = read(&expected.part);
        assert_eq!(read_part(&write_part(&part), "written").unwrap(), part, "{}", expected.part);
        assert!(!part.note.is_empty() && !part.name.is_empty(), "{}", expected.part);
    }
}

#[test]
fn the_parts_are_what_they_are_shown_for() {
    let return_pipe = solved("silencer-return.ron");
    assert!(return_pipe.bends.iter().any(|bend| bend.angle_rad == std::f64::consts::PI && bend.tangent_mm.is_none()));
    let system = solved("hill-system.ron");
    assert!(system.bends.len() >= 8);
    let turned = system.bends[1..].iter().filter(|bend| bend.rotation_rad.to_degrees().abs() % 180.0 > 1.0).count();
    assert!(turned >= 7, "only {turned} bends leave the plane of the one before");
    assert!(matches!(read("hill-system.ron").path, Path::Vertices(_)));
    assert!(solved("pinched-corner.ron").straights_mm.iter().any(|straight| *straight < 0.0));
}

#[test]
fn the_system_tube_keeps_clear_of_its_hard_points() {
    let mut checked = 0;
    for expected in expected().unwrap() {
        let (part, solved) = (read(&expected.part), solved(&expected.part));
        for hard in &expected.hard_points {
            let closest = solved.centreline.closest_point(&hard.at_mm.into());
            let clear_mm = closest.distance_mm - hard.radius_mm - part.tube.od.mm() / 2.0;
            let (name, wanted_mm) = (&hard.name, expected.clear_by_mm);
            assert!(clear_mm >= wanted_mm, "{}: {clear_mm} mm from the {name}, not {wanted_mm}", expected.part);
            assert!(clear_mm < 150.0, "{}: the {name} is nowhere near", expected.part);
            checked += 1;
        }
    }
    assert!(checked >= 5, "only {checked} hard points");
}

/// Every cure that a demo part offers can be applied, and does what it says: the finding goes or eases.
#[test]
fn every_cure_of_a_demo_part_can_be_applied_and_eases_its_finding() {
    let shop = built_in_shop();
    let mut applied = 0;
    for expected in expected().unwrap() {
        let part = read(&expected.part);
        for finding in &judged(&part, &shop).findings {
            for cure in &finding.cures {
                let cured = cure.edit.applied_to(&part).unwrap_or_else(|refusal| {
                    panic!("{}, {}: \"{}\" cannot be applied: {refusal}", expected.part, finding.fault, cure.label)
                });
                let same = |other: &&elbowroom_bending::Finding| {
                    other.fault == finding.fault && other.place.bend == finding.place.bend
                };
                let left = solve(&cured, &shop).findings.iter().find(same).map(|left| left.severity);
                assert!(
                    left < Some(finding.severity) || finding.severity == Severity::Note,
                    "{}, {}: \"{}\" leaves {left:?}",
                    expected.part,
                    finding.fault,
                    cure.label
                );
                applied += 1;
            }
        }
    }
    assert!(applied >= 6, "only {applied} cures were offered");
}
