//! `clamp-not-in-shop`: the chosen clamp is not one of the die set's.

use elbowroom_geometry::Angle;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{ClampCosts, Cures, Remedy};
use super::cures::take;
use super::finding::{Facts, Place, Severity, Unit};
use super::subject::Subject;
use super::name::DieNumber;
use super::words::{Marked, Words, degrees};
use crate::model::grip;
use crate::{Basis, Clamp, DieSet};

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "clamp-not-in-shop",
    title: "Clamp not in the shop",
    severity: "Always a caution.",
    summary: "The chosen clamp is not one that the die set has.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Clamp,
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

/// A clamp that is not there: its length is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// The die set that has none like it.
    die: DieNumber,
    /// What one of that length is taken to hold.
    holds: Angle,
    /// What that rests on.
    basis: Basis,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
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
        let nearest = nearest(die, clamp.length_mm);
        if nearest.is_some_and(|one| (one.length.mm() - clamp.length_mm).abs() <= DieSet::SAME_SIZE.mm()) {
            continue;
        }
        let facts = Facts {
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
        };
        let holds = grip::held(die, clamp.length_mm);
        tell(facts, Evidence { die: DieNumber::new(number), holds, basis: die.grip_basis() });
    }
}

/// The clamp of a die set whose length is nearest.
fn nearest(die: &DieSet, length_mm: f64) -> Option<&Clamp> {
    let away_mm = |one: &&Clamp| (one.length.mm() - length_mm).abs();
    die.clamps.iter().min_by(|a, b| away_mm(a).total_cmp(&away_mm(b)))
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        format!(
            "Die set {} has no {} clamp in the shop; one of that length is taken to hold {}.",
            words.die(self.die),
            words.length(facts.measured),
            degrees(self.holds.radians()).resting_on(self.basis)
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        format!("Bends, but on a {} clamp that the shop does not have.", words.length(facts.measured))
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let die = subject.die_of(&subject.solved.bends[facts.place.bend?])?;
        let nearest = nearest(die, facts.measured)?;
        Some(Cures::from(take(nearest, ClampCosts::Every)).and(Some(Remedy::LongestClamps)))
    }
}
