//! `grip-too-short`: the clamp holds less tube than has proved itself for the angle.

use elbowroom_geometry::Angle;

use super::cures::{lengthen, longer_clamp};
use super::words::{Marked, degrees, with_cures};
use super::{About, Check, SAME_MM, Subject};
use crate::layout::grip;
use crate::{ClampOnTube, Cure, DieSet, End, Finding, Place, Severity, SolvedBend, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "grip-too-short",
    summary: "The clamp grips less tube than has proved itself for the bend angle.",
    manual: MANUAL,
    about: About::Rest,
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
  the bite that leaves no mark. For the first bend it is the clamp on the lead leg, extra stock counted.
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

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    for (index, made) in subject.solved.bends.iter().enumerate() {
        let (Some(clamp), Some(die)) = (&made.clamp, subject.die_of(made)) else { continue };
        let proved = grip::needed_mm(die, Angle::from_radians(made.angle_rad));
        // Beyond what is proved the longest clamp is the least that can be asked for.
        let needed_mm = proved.or_else(|| die.longest_clamp().map(|clamp| clamp.length.mm())).unwrap_or(0.0);
        if clamp.gripped_mm < needed_mm - SAME_MM {
            findings.push(short(subject, index, clamp, die, needed_mm, proved.is_some()));
        } else if proved.is_none() && !die.clamps.is_empty() {
            findings.push(unproved(subject, index, made, clamp, die));
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

fn short(
    subject: &Subject,
    index: usize,
    clamp: &ClampOnTube,
    die: &DieSet,
    needed_mm: f64,
    is_proved: bool,
) -> Finding {
    let made = &subject.solved.bends[index];
    let severity =
        if clamp.gripped_mm < needed_mm * SURE_TO_SLIP - SAME_MM { Severity::Stop } else { Severity::Caution };
    // Where nothing is gripped at all the bend itself is what there is to mark.
    let place =
        if clamp.gripped_mm > SAME_MM { gripped_place(subject, index, clamp) } else { subject.arc_place(index) };
    // Where no clamp has proved to hold the angle, more of one is no cure.
    let longer = if is_proved { longer_clamp(subject, index, clamp, needed_mm) } else { None };
    let mut cures: Vec<Cure> = longer.into_iter().collect();
    if is_proved && subject.bend_before(index).is_some() && clamp.length_mm >= needed_mm - SAME_MM {
        let held_over_arc_mm = clamp.length_mm - clamp.mark_free_straight_mm;
        let to_mm = (needed_mm - held_over_arc_mm).max(made.straight_ahead_mm);
        cures.push(lengthen(subject, index, to_mm));
    }
    let (gripped, needed, angle) = (
        subject.length(clamp.gripped_mm),
        subject.length(needed_mm).resting_on(die.grip_basis()),
        degrees(made.angle_rad),
    );
    let this = subject.bend(index);
    let verdict = match severity {
        Severity::Stop => {
            format!("Cannot be bent as drawn: {this} slips, as only {gripped} of the {needed} it takes is gripped.")
        }
        _ => format!("Bends, but {this} may slip: {gripped} is gripped, and {angle} takes {needed}."),
    };
    let slips = if severity == Severity::Stop { "it will slip" } else { "it may slip" };
    Finding {
        fault: CHECK.fault,
        severity,
        place,
        also: Vec::new(),
        measured: clamp.gripped_mm,
        limit: needed_mm,
        unit: Unit::Millimetre,
        measured_basis: (clamp.overlap_mm > SAME_MM).then(|| die.basis.into()),
        limit_basis: Some(die.grip_basis().into()),
        text: with_cures(
            format_args!(
                "Bend {}: {gripped} is gripped, and {angle} has proved to take {needed}; {slips}.",
                subject.number(index)
            ),
            &cures,
        ),
        verdict,
        cures,
    }
}

fn unproved(subject: &Subject, index: usize, made: &SolvedBend, clamp: &ClampOnTube, die: &DieSet) -> Finding {
    let largest = grip::largest_proved(die);
    let angle = degrees(made.angle_rad);
    let most = degrees(largest.radians()).resting_on(die.grip_basis());
    Finding {
        fault: CHECK.fault,
        severity: Severity::Caution,
        place: gripped_place(subject, index, clamp),
        also: Vec::new(),
        measured: made.angle_rad.to_degrees(),
        limit: largest.degrees(),
        unit: Unit::Degree,
        measured_basis: None,
        limit_basis: Some(die.grip_basis().into()),
        text: format!(
            "Bend {}: no clamp of die set {} has proved to hold {angle}; the most is {most}. Try it on scrap first and \
             record what held.",
            subject.number(index),
            die.name
        ),
        verdict: format!("Bends, but no clamp has proved to hold the {angle} of {}.", subject.bend(index)),
        cures: Vec::new(),
    }
}
