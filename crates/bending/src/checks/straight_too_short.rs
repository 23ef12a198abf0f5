//! `straight-too-short`: the clamp cannot close because the straight ahead of the bend is too short.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::cures::{lengthen, shorter_clamp};
use super::finding::{Facts, Severity, Unit};
use super::name::Ahead;
use super::subject::Subject;
use super::words::{Marked, Words};
use crate::model::nearly::SAME_MM;
use elbowroom_geometry::units::Shown;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "straight-too-short",
    title: "Straight too short for the clamp",
    severity: "Always a stop.",
    summary: "The straight ahead of a bend is too short for the clamp to close on it.",
    manual: MANUAL,
    about: About::Straight,
    drawing: Drawing::Clamp,
    run,
};

const MANUAL: &str = "\
What it looks for
  A straight between two bends that is shorter than the clamp of the second bend can do with.

Why it matters
  The clamp grips the tube ahead of the bend. Its cavity is straight. Where the straight is too short the
  clamp reaches back over the arc before, which curves away from it, and the jaws ride up on the tube.
  They dent it or stay open, and a clamp that is not closed lets the tube slip.

How it is measured
  The bite is how far the tube's centreline lies off the clamp's axis under the clamp, at its worst, on
  the true path in space with everything the clamp covers. It grows as the straight shrinks. The smallest
  straight is the one at which the bite is what the clamp still closes on, found for this very pair of
  bends, this radius and this clamp. A shallow bend ahead curves away less, so it needs less straight.
  The first bend has no arc ahead of it; its clamp is dealt with by \"Leg too short to clamp\".

Limit and its source
  The bite on which the clamp still closes is a figure of the die set in the shop file (2 mm to start
  with). Common practice, no source. Close the clamp on a scrap bend, measure, and put your own there.
  A straight as long as the clamp always passes.

Example
  50.8 mm tube, radius 76.2 mm, 125 mm clamp, a 90° bend ahead. In the arc the tube leaves the axis by
  R(1 - cos a), with a = 57.3° × s / R, which is 2 mm at a = 13.1°, s = 17.5 mm. The clamp may reach that
  far over the bend, so 107.6 mm
  of straight is enough.

Cure and its risk
  Lengthen the straight: all that lies beyond keeps its direction and moves along, so look at what it
  comes near. Or take a shorter clamp, where it has proved to hold the angle: less grip, more risk of
  slip. A compound-cut clamp can hold a curved stretch; for a one-off it rarely pays.

Caution
  Never force a clamp to close on a bend, and never hold the tube by hand to help it. A tube that slips
  out of the clamp whips round. Keep out of the swing and follow the machine maker's rules and local law.
";

/// A straight that is too short. Its length is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// Which straight.
    ahead: Ahead,
    /// The clamp that does not close, mm.
    clamp_mm: f64,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    for (index, made) in solved.bends.iter().enumerate() {
        let (Some(clamp), Some(die)) = (&made.clamp, subject.die_of(made)) else { continue };
        let (straight_mm, needs_mm) = (made.straight_ahead_mm, clamp.needs_straight_mm);
        if straight_mm >= needs_mm - SAME_MM || subject.bend_before(index).is_none() {
            continue;
        }
        let facts = Facts {
            fault: CHECK.fault,
            severity: Severity::Stop,
            place: subject.place_ahead(index),
            also: Vec::new(),
            measured: straight_mm,
            limit: needs_mm,
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: Some(die.basis.into()),
        };
        tell(facts, Evidence { ahead: subject.ahead(index), clamp_mm: clamp.length_mm });
    }
}

/// What is missing, rounded up, so that what is said suffices.
fn missing(facts: &Facts, words: &Words) -> Shown {
    words.at_least(facts.limit - facts.measured).resting(facts.limit_basis)
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        format!(
            "Bend {}: {} is {}, and the {} clamp needs {} here; {} are missing.",
            self.ahead.bend,
            self.ahead.straight(),
            words.length(facts.measured),
            words.length(self.clamp_mm),
            words.at_least(facts.limit).resting(facts.limit_basis),
            missing(facts, words)
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let (missing, place) = (missing(facts, words), self.ahead.place());
        format!("Cannot be bent as drawn: {missing} more straight is needed {place}.")
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let index = facts.place.bend?;
        let clamp = subject.solved.bends[index].clamp.as_ref()?;
        let shorter = shorter_clamp(subject, index, clamp, |tried| tried.closes());
        Some(Cures::from(lengthen(subject, index, clamp.needs_straight_mm)).and(shorter))
    }
}
