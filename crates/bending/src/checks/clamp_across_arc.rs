//! `clamp-across-arc`: the clamp reaches over an arc that is already bent.

use std::fmt;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::cures::{lengthen, shorter_clamp};
use super::finding::{Facts, Place, Severity, Unit};
use super::name::Name;
use super::subject::Subject;
use super::words::{Marked, Words, degrees, direction};
use crate::model::nearly::SAME_MM;
use crate::{ClampOnTube, DieSet};

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "clamp-across-arc",
    title: "Clamp over an arc",
    severity: "A note up to the bite that leaves no mark, a caution up to the one on which the clamp closes, beyond it a stop.",
    summary: "The clamp reaches over an arc that is already bent, and marks or dents it.",
    manual: MANUAL,
    about: About::Bite,
    drawing: Drawing::Clamp,
    run,
};

const MANUAL: &str = "\
What it looks for
  A clamp that does not fit on the straight ahead of its bend and sits across the arc before it.

Why it matters
  The clamp's cavity is straight and the arc is not. Where they part, the edge of the cavity bites into
  the tube. A little leaves a line that polishes out. More leaves a dent that shows and thins the wall,
  or the clamp does not close at all.

How it is measured
  Overlap: how far the clamp reaches past the end of the straight, along the centreline. Bite: the
  largest distance between the tube's centreline and the clamp's axis under the clamp, on the true path
  in space, every arc and straight under the clamp included. In one arc of radius R it is
  R(1 - cos a), where a = 57.3° × s / R is the angle of the arc at s past the end of the straight. Its
  direction follows from the rotation between the
  two bends: towards the die, into the clamp, or along the parting line between them, where the jaws
  shear rather than press.

Limit and its source
  Each die set in the shop file has the largest bite that leaves no mark (0.3 mm to start with) and the
  largest on which the clamp closes (2 mm to start with). Up to the first it is a note, up to the second
  a caution, beyond it a stop. Common practice, no source. Your own trials belong in the shop file.

Example
  Radius 76.2 mm, 125 mm clamp, 115 mm of straight: the clamp reaches 10 mm over the bend before. If that
  bend is 45°, the bite is 76.2 × (1 - cos 7.5°) = 0.7 mm, as 10 mm of that arc are 7.5°: the clamp will
  mark it. If it is only
  1°, the arc is over after 1.3 mm and the bite is 0.2 mm: no mark.

Cure and its risk
  Lengthen the straight, or take a shorter clamp that has proved to hold the angle. Or live with the mark
  where nobody sees it, and polish it out. Swapping the ends makes another bend meet the clamp.

Caution
  A dented wall is a thin wall, and a mark across the outside of a bend is where cracks begin. Do not
  pack out an open clamp by hand. Follow the machine maker's rules and local law.
";

/// A clamp that reaches over an arc, bends by their numbers. Its bite is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// The bend whose clamp it is.
    bend: u32,
    /// How far it reaches, mm.
    overlap_mm: f64,
    /// To which side the bite goes, about the clamp's axis.
    direction_rad: f64,
    /// What it reaches over.
    covered: Covered,
    /// Where it marks the tube most.
    marked: Name,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    for (index, made) in solved.bends.iter().enumerate() {
        let Some(clamp) = &made.clamp else { continue };
        if clamp.overlap_mm <= SAME_MM {
            continue;
        }
        let (Some(before), Some(die)) = (subject.bend_before(index), subject.die_of(made)) else { continue };
        let severity = severity(clamp.bite_mm, die);
        let (covered, [from_mm, to_mm]) = Covered::by(subject, before, clamp);
        let facts = Facts {
            fault: CHECK.fault,
            severity,
            place: Place { from_mm, to_mm, bend: Some(index), straight: None },
            also: Vec::new(),
            measured: clamp.bite_mm,
            limit: if severity == Severity::Stop { die.largest_bite.mm() } else { die.mark_free_bite.mm() },
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: Some(die.basis.into()),
        };
        let evidence = Evidence {
            bend: subject.number(index),
            overlap_mm: clamp.overlap_mm,
            direction_rad: clamp.bite_direction_rad,
            covered,
            marked: subject.element_at(clamp.bite_at_mm, before),
        };
        tell(facts, evidence);
    }
}

fn severity(bite_mm: f64, die: &DieSet) -> Severity {
    if bite_mm <= die.mark_free_bite.mm() + SAME_MM {
        Severity::Note
    } else if bite_mm <= die.largest_bite.mm() + SAME_MM {
        Severity::Caution
    } else {
        Severity::Stop
    }
}

/// The arcs under a clamp, bends by their numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Covered {
    /// How far it goes over the arc made before the bend, radians; `None` where it covers the whole of it.
    last_rad: Option<f64>,
    /// That arc.
    last: u32,
    /// The furthest of the arcs beyond it that it covers, if any.
    furthest: Option<u32>,
    /// Whether the finish of the drawing is bent first.
    is_from_finish: bool,
}

impl Covered {
    /// Walks the arcs from the one made just before the bend towards the end that is bent first. Also gives the stretch
    /// on which they lie, mm along the tube.
    fn by(subject: &Subject, before: usize, clamp: &ClampOnTube) -> (Self, [f64; 2]) {
        let solved = subject.solved;
        // Everything as far from the bend as it lies along the tube, whichever way that is.
        let way = solved.from.ahead();
        let [far_mm, _] = solved.from.first_before([clamp.from_mm, clamp.to_mm]);
        let beyond_far_mm = |at_mm: f64| (at_mm - far_mm) * way;
        let ends_mm = |index: usize| {
            let arc = &solved.bends[index];
            // The end towards the bend, and the one away from it.
            let [away_mm, near_mm] = solved.from.first_before([arc.starts_at_mm, arc.ends_at_mm()]);
            (near_mm, away_mm)
        };
        let arc = &solved.bends[before];
        let (near_mm, away_mm) = ends_mm(before);
        let under_mm = (-beyond_far_mm(near_mm)).min(arc.arc_mm).max(0.0);
        let mut reaches_mm = if beyond_far_mm(away_mm) > 0.0 { near_mm + way * under_mm } else { away_mm };
        let (mut furthest, mut next) = (None, subject.bend_before(before));
        while let Some(index) = next {
            let (near_mm, away_mm) = ends_mm(index);
            if beyond_far_mm(near_mm) >= 0.0 {
                break;
            }
            let to_mm = if beyond_far_mm(away_mm) > 0.0 { far_mm } else { away_mm };
            if (to_mm - reaches_mm) * way > 0.0 {
                reaches_mm = to_mm;
            }
            furthest = Some(index);
            next = subject.bend_before(index);
        }
        let covered = Self {
            last_rad: (beyond_far_mm(away_mm) > SAME_MM).then(|| arc.angle_rad * under_mm / arc.arc_mm),
            last: subject.number(before),
            furthest: furthest.map(|index| subject.number(index)),
            is_from_finish: subject.is_from_finish(),
        };
        (covered, [near_mm.min(reaches_mm), near_mm.max(reaches_mm)])
    }
}

/// The arcs in words, such as `the last 12.3° of bend 2`.
impl fmt::Display for Covered {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.last_rad {
            Some(last_rad) => {
                let which = if self.is_from_finish { "" } else { "the last " };
                write!(out, "{which}{} of bend {}", degrees(last_rad), self.last)?;
            }
            None => write!(out, "the whole of bend {}", self.last)?,
        }
        match &self.furthest {
            Some(furthest) if self.is_from_finish => write!(out, " and on to bend {furthest}"),
            Some(furthest) => write!(out, " and back to bend {furthest}"),
            None => Ok(()),
        }
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let limit = words.length(facts.limit).resting(facts.limit_basis);
        let rule = match facts.severity {
            Severity::Note => format!("up to {limit} leaves no mark"),
            Severity::Caution => format!("more than {limit} leaves a mark"),
            Severity::Stop => format!("this clamp closes on no more than {limit}"),
        };
        format!(
            "Bend {}: clamp reaches {} over {}; bite {} {}, and {rule}.",
            self.bend,
            words.length(self.overlap_mm),
            self.covered,
            words.length(facts.measured),
            direction(self.direction_rad)
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let (this, before) = (self.bend, self.covered.last);
        match facts.severity {
            Severity::Note => format!(
                "Bends as drawn; the clamp of bend {this} reaches {} over bend {before} and leaves no mark.",
                words.length(self.overlap_mm)
            ),
            Severity::Caution => format!("Bends, but the clamp of bend {this} will mark {}.", self.marked),
            Severity::Stop => format!(
                "Cannot be bent as drawn: the clamp of bend {this} bites {} into bend {before}.",
                words.length(facts.measured)
            ),
        }
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let (index, now) = (facts.place.bend?, facts.severity);
        let made = &subject.solved.bends[index];
        let (clamp, die) = (made.clamp.as_ref()?, subject.die_of(made)?);
        // From a note only the whole clamp on the straight is better.
        let to_mm = if now == Severity::Note { clamp.length_mm } else { clamp.mark_free_straight_mm };
        let shorter = shorter_clamp(subject, index, clamp, |tried| {
            tried.overlap_mm() <= SAME_MM || (now > Severity::Note && severity(tried.bite_mm(), die) < now)
        });
        Some(Cures::from(lengthen(subject, index, to_mm.max(made.straight_ahead_mm))).and(shorter))
    }
}
