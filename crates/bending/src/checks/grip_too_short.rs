//! `grip-too-short`: the clamp holds less tube than has proved itself for the angle.

use elbowroom_geometry::Angle;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::cures::{lengthen, longer_clamp};
use super::finding::{Facts, Place, Severity, Unit};
use super::subject::Subject;
use super::name::DieNumber;
use super::words::{Marked, Words, degrees};
use crate::model::nearly::SAME_MM;
use crate::model::grip;
use crate::{ClampOnTube, DieSet, End};
use elbowroom_geometry::units::Shown;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "grip-too-short",
    title: "Grip too short",
    severity: "A stop where so little is gripped that it slips; else a caution.",
    summary: "The clamp grips less tube than has proved itself for the bend angle.",
    manual: MANUAL,
    about: About::Grip,
    drawing: Drawing::Clamp,
    run,
};

/// Below this share of the proved length the tube is sure to slip. Our own rule; common practice, no source.
const SURE_TO_SLIP: f64 = 0.5;

const MANUAL: &str = "\
What it looks for
  A bend whose clamp grips less length than has proved itself for its angle, and an angle beyond what any
  clamp of the die set has proved.

Why it matters
  The clamp pulls the tube round the die. The larger the angle and the shorter the grip, the likelier the
  tube slips: the bend comes out short, the inside wrinkles, and the piece is scrap.

How it is measured
  The gripped length is what lies in the clamp on the straight, and what overlaps the arc before within
  the bite that leaves no mark. For the first bend it is the clamp on the leg that is bent first, extra
  stock counted.
  Against it stands the length that the shop file records as proved for this angle, by straight lines
  between the clamps of the die set and down to nothing at 0°.

Limit and its source
  The proved angles of the die set. Those of the default shop are common practice, no source: what your
  own clamps have held belongs in your shop file. Short of it is a caution. Less than half of it is a
  stop, which is a rule of this program; common practice, no source.

Example
  Clamps of 50, 80 and 125 mm, proved to 45°, 90° and 180°. A bend of 120° asks for
  80 + 45 × 30 / 90 = 95 mm. On 80 mm it may slip.

Cure and its risk
  Take a longer clamp, or lengthen the straight so that more of it is gripped. A rougher cavity grips
  better and marks the tube. Beyond what any clamp of the die set has proved, none of these is offered: try the
  angle on scrap, or make it in two bends.

Caution
  A tube that slips out of the clamp whips round. Keep out of the swing, and follow the machine maker's
  rules and local law.
";

/// A grip that is too short, or an angle that no grip has proved to hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// The gripped length is what was measured.
    Short {
        /// The bend, by its number.
        bend: u32,
        /// Its angle, radians.
        angle_rad: f64,
    },
    /// The angle is what was measured.
    Unproved {
        /// The bend, by its number.
        bend: u32,
        /// The die set of which no clamp has held so much.
        die: DieNumber,
    },
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    for (index, made) in subject.solved.bends.iter().enumerate() {
        let (Some(clamp), Some((number, die))) = (&made.clamp, subject.numbered_die_of(made)) else { continue };
        let angle_rad = made.angle_rad;
        let proved_mm = grip::needed_mm(die, Angle::from_radians(angle_rad));
        // Beyond what is proved the longest clamp is the least that can be asked for.
        let longest_mm = || die.longest_clamp().map(|clamp| clamp.length.mm());
        let needed_mm = proved_mm.or_else(longest_mm).unwrap_or(0.0);
        let bend = subject.number(index);
        if clamp.gripped_mm < needed_mm - SAME_MM {
            tell(short(subject, index, clamp, die, needed_mm), Evidence::Short { bend, angle_rad });
        } else if proved_mm.is_none() && !die.clamps.is_empty() {
            let facts = Facts {
                fault: CHECK.fault,
                severity: Severity::Caution,
                place: gripped_place(subject, index, clamp),
                also: Vec::new(),
                measured: angle_rad.to_degrees(),
                limit: grip::largest_proved(die).degrees(),
                unit: Unit::Degree,
                measured_basis: None,
                limit_basis: Some(die.grip_basis().into()),
            };
            tell(facts, Evidence::Unproved { bend, die: number });
        }
    }
}

fn gripped_place(subject: &Subject, index: usize, clamp: &ClampOnTube) -> Place {
    let [from_mm, to_mm] = match subject.from() {
        End::Start => [clamp.to_mm - clamp.gripped_mm, clamp.to_mm],
        End::Finish => [clamp.from_mm, clamp.from_mm + clamp.gripped_mm],
    };
    Place { from_mm, to_mm, bend: Some(index), straight: Some(subject.solved.clamped_straight(index)) }
}

fn short(subject: &Subject, index: usize, clamp: &ClampOnTube, die: &DieSet, needed_mm: f64) -> Facts {
    let is_sure = clamp.gripped_mm < needed_mm * SURE_TO_SLIP - SAME_MM;
    Facts {
        fault: CHECK.fault,
        severity: if is_sure { Severity::Stop } else { Severity::Caution },
        // Where nothing is gripped at all the bend itself is what there is to mark.
        place: if clamp.gripped_mm > SAME_MM { gripped_place(subject, index, clamp) } else { subject.arc_place(index) },
        also: Vec::new(),
        measured: clamp.gripped_mm,
        limit: needed_mm,
        unit: Unit::Millimetre,
        measured_basis: (clamp.overlap_mm > SAME_MM).then(|| die.basis.into()),
        limit_basis: Some(die.grip_basis().into()),
    }
}

/// The gripped length, and the one that is needed.
fn lengths(facts: &Facts, words: &Words) -> [Shown; 2] {
    [words.length(facts.measured), words.length(facts.limit).resting(facts.limit_basis)]
}

/// The angle of the bend, and the most that has been held.
fn angles(facts: &Facts) -> [Shown; 2] {
    let degrees = |value: f64| Shown::new(value, 1, "°");
    [degrees(facts.measured), degrees(facts.limit).resting(facts.limit_basis)]
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        match *self {
            Self::Short { bend, angle_rad } => {
                let ([gripped, needed], angle) = (lengths(facts, words), degrees(angle_rad));
                let slips = if facts.severity == Severity::Stop { "it slips" } else { "it may slip" };
                format!("Bend {bend}: {gripped} is gripped, and a bend of {angle} has held on {needed}; {slips}.")
            }
            Self::Unproved { bend, die } => {
                let ([angle, most], die) = (angles(facts), words.die(die));
                format!(
                    "Bend {bend}: no clamp of die set {die} has proved to hold {angle}; the most is {most}. Try it on \
                     scrap first and record what held."
                )
            }
        }
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        match *self {
            Self::Short { bend, angle_rad } => {
                let ([gripped, needed], angle) = (lengths(facts, words), degrees(angle_rad));
                match facts.severity {
                    Severity::Stop => format!(
                        "Cannot be bent as drawn: bend {bend} slips, as only {gripped} of the {needed} it takes is \
                         gripped."
                    ),
                    Severity::Caution | Severity::Note => {
                        format!("Bends, but bend {bend} may slip: {gripped} is gripped, and {angle} takes {needed}.")
                    }
                }
            }
            Self::Unproved { bend, .. } => {
                let [angle, _] = angles(facts);
                format!("Bends, but no clamp has proved to hold the {angle} of bend {bend}.")
            }
        }
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let Self::Short { angle_rad, .. } = *self else { return None };
        let index = facts.place.bend?;
        let made = &subject.solved.bends[index];
        // Where no clamp has proved to hold the angle, more of one is no cure.
        let needed_mm = grip::needed_mm(subject.die_of(made)?, Angle::from_radians(angle_rad))?;
        let clamp = made.clamp.as_ref()?;
        let is_long_enough = subject.bend_before(index).is_some() && clamp.length_mm >= needed_mm - SAME_MM;
        let lengthened = is_long_enough.then(|| {
            let held_over_arc_mm = clamp.length_mm - clamp.mark_free_straight_mm;
            lengthen(subject, index, (needed_mm - held_over_arc_mm).max(made.straight_ahead_mm))
        });
        Some(Cures::NONE.and(longer_clamp(subject, index, clamp, needed_mm)).and(lengthened))
    }
}
