//! `angle-beyond-machine`: a bend turns further than the bend arm or the die does.

use elbowroom_geometry::Angle;

use super::words::{cures_sentence, degrees};
use super::{Check, SAME_RAD, Subject};
use crate::{Cure, Edit, Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "angle-beyond-machine",
    summary: "A bend turns further than the bend arm reaches or the die is cut for.",
    manual: MANUAL,
    run,
};

const MANUAL: &str = "\
What it looks for
  A bend angle beyond the largest angle of the machine or of the die set that bends it.

Why it matters
  The bend arm has a stop, and a die ends where its groove ends. Beyond that the tube is not held and
  kinks, or the arm does not get there.

How it is measured
  The bend angle as drawn. Springback asks for a little more on the machine than on the drawing, so leave
  a few degrees in hand.

Limit and its source
  The smaller of the two figures in the shop file. The machine's is in its handbook; the one of the
  default shop is common practice, no source.

Example
  A bend of 195° on a die that is cut for 180°.

Cure and its risk
  Set the angle to what can be bent; everything beyond turns along, so the part becomes another. Two
  bends with a straight between them go further than one.

Caution
  Never take out a stop of the bend arm to gain a few degrees. Follow the machine maker's rules and local
  law.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let machine = subject.shop.machine.largest_angle;
    for (index, made) in subject.solved.bends.iter().enumerate() {
        if !made.is_bent() || subject.is_fold_back(index) {
            continue;
        }
        let die = subject.die_of(made);
        let (limit, who) = match die.filter(|die| die.largest_angle < machine) {
            Some(die) => (die.largest_angle, format!("die set {}", die.name)),
            None => (machine, format!("the machine ({})", subject.shop.machine.name)),
        };
        if made.angle_rad <= limit.radians() + SAME_RAD {
            continue;
        }
        let (angle, most) = (degrees(made.angle_rad), degrees(limit.radians()));
        let mut cures = Vec::new();
        if limit > Angle::ZERO {
            cures.push(Cure {
                label: format!("Set the angle to {most}"),
                edit: Edit::SetAngle(index, limit),
                risk: "Everything beyond turns along: the part becomes another.".into(),
            });
        }
        findings.push(Finding {
            fault: CHECK.fault,
            severity: Severity::Stop,
            place: subject.arc_place(index),
            measured: made.angle_rad.to_degrees(),
            limit: limit.degrees(),
            unit: Unit::Degree,
            text: format!(
                "Bend {}: {angle} is more than the {most} that {who} bends.{}",
                subject.number(index),
                cures_sentence(&cures)
            ),
            verdict: format!(
                "Cannot be bent as drawn: {} turns {angle}, and {who} bends no more than {most}.",
                subject.bend(index)
            ),
            cures,
        });
    }
}
