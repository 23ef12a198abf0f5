//! `clamp-not-in-shop`: the chosen clamp is not one of the die set's.

use super::words::{Marked, degrees, with_cures};
use super::{About, Check, Subject};
use crate::layout::grip;
use crate::{Cure, DieSet, Edit, Finding, Place, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "clamp-not-in-shop",
    summary: "The chosen clamp is not one that the die set has.",
    manual: MANUAL,
    about: About::Rest,
    run,
};

const MANUAL: &str = "\
What it looks for
  A clamp length chosen for the part that the die set in the shop file does not have.

Why it matters
  It is a way to ask what another clamp would do, and a caution, because nothing can be bent on a clamp that is
  not on the shelf.

How it is measured
  The chosen length against the clamps of each die set that the part uses, to within 0.1 mm.

Limit and its source
  The shop file. What such a clamp holds is read off between the clamps that have proved themselves, by a
  straight line. Common practice, no source.

Example
  A 100 mm clamp, where the die set has 80 mm proved to 90° and 125 mm proved to 180°: it is taken to
  hold 90 + 90 × 20 / 45 = 130°.

Cure and its risk
  Take a clamp that is there, or have one made and prove it.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    if subject.part.tooling.clamp.is_none() {
        return;
    }
    let mut seen: Vec<usize> = Vec::new();
    for (index, made) in subject.solved.bends.iter().enumerate() {
        let (Some(number), Some(die), Some(clamp)) = (made.die, subject.die_of(made), &made.clamp) else { continue };
        if seen.contains(&number) {
            continue;
        }
        seen.push(number);
        let away_mm = |one: &&crate::Clamp| (one.length.mm() - clamp.length_mm).abs();
        let nearest = die.clamps.iter().min_by(|a, b| away_mm(a).total_cmp(&away_mm(b)));
        if nearest.is_some_and(|one| away_mm(&one) <= DieSet::SAME_SIZE.mm()) {
            continue;
        }
        let mut cures = Vec::new();
        if let Some(nearest) = nearest {
            cures.push(Cure {
                label: format!(
                    "Take the {} clamp (proved to {})",
                    subject.length(nearest.length.mm()),
                    degrees(nearest.proved_angle.radians()).resting_on(nearest.basis)
                ),
                edit: Edit::ChooseClamp(Some(nearest.length)),
                risk: "It then holds every bend of the part.".into(),
            });
            cures.push(Cure {
                label: "Take the longest clamp of each die set".into(),
                edit: Edit::ChooseClamp(None),
                risk: "A longer clamp needs longer straights.".into(),
            });
        }
        let holds = degrees(grip::held(die, clamp.length_mm).radians()).resting_on(die.grip_basis());
        findings.push(Finding {
            fault: CHECK.fault,
            severity: Severity::Caution,
            place: Place {
                from_mm: clamp.from_mm,
                to_mm: clamp.to_mm,
                bend: Some(index),
                straight: Some(subject.solved.clamped_straight(index)),
            },
            also: Vec::new(),
            measured: clamp.length_mm,
            limit: nearest.map_or(0.0, |one| one.length.mm()),
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: None,
            text: with_cures(
                format_args!(
                    "Die set {} has no {} clamp in the shop; one of that length is taken to hold {holds}.",
                    die.name,
                    subject.length(clamp.length_mm)
                ),
                &cures,
            ),
            verdict: format!("Bends, but on a {} clamp that the shop does not have.", subject.length(clamp.length_mm)),
            cures,
        });
    }
}
