//! `angle-beyond-machine`: a bend turns further than the bend arm or the die does.

use elbowroom_geometry::Angle;

use super::words::{Marked, degrees, with_cures};
use super::{About, Check, SAME_RAD, Subject};
use crate::forming::ground::Ground;
use crate::{Cure, Edit, Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "angle-beyond-machine",
    summary: "A bend turns further than the bend arm reaches or the die is cut for.",
    manual: MANUAL,
    about: About::Rest,
    run,
};

const MANUAL: &str = "\
What it looks for
  A bend angle beyond the largest angle of the machine or of the die set that bends it.

Why it matters
  The bend arm has a stop, and a die ends where its groove ends. Beyond that the tube is not held and
  kinks, or the arm does not get there.

How it is measured
  Against the die, the bend angle as drawn: a groove is cut with room for springback (common practice, no
  source). Against the machine, also the angle to set, which springback makes larger than the drawn one.

How grave it is
  A stop. Where only the angle to set is beyond the machine, and the springback rests on theory instead of
  trial bends or a line of the shop's own, it is a caution, because theory is only a start.

Limit and its source
  The smaller of the two figures in the shop file. The machine's is in its handbook; the one of the
  default shop is common practice, no source.

Example
  A bend of 195° on a die that is cut for 180°. Or one of 189° on a machine that stops at 190°: with a
  springback of 1 degree and 0.01 per degree the machine has to be set to 191.9°.

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
        let (limit, who, basis) = match die.filter(|die| die.largest_angle < machine) {
            Some(die) => (die.largest_angle, format!("die set {}", die.name), die.basis),
            None => (machine, format!("the machine ({})", subject.shop.machine.name), subject.shop.machine.basis),
        };
        if made.angle_rad <= limit.radians() + SAME_RAD {
            findings.extend(set_beyond(subject, index));
            continue;
        }
        let ground = Ground::from(basis);
        let (angle, most) = (degrees(made.angle_rad), degrees(limit.radians()));
        let mut cures = Vec::new();
        if limit > Angle::ZERO {
            cures.push(Cure {
                label: format!("Set the angle to {most}"),
                edit: Edit::SetAngle(subject.solved.nodes.bend(index), limit),
                risk: "Everything beyond turns along: the part becomes another.".into(),
            });
        }
        findings.push(Finding {
            fault: CHECK.fault,
            severity: Severity::Stop,
            place: subject.arc_place(index),
            also: Vec::new(),
            measured: made.angle_rad.to_degrees(),
            limit: limit.degrees(),
            unit: Unit::Degree,
            measured_basis: None,
            limit_basis: Some(ground),
            text: with_cures(
                format_args!(
                    "Bend {}: {angle} is more than the {} that {who} bends.",
                    subject.number(index),
                    most.resting_on(ground)
                ),
                &cures,
            ),
            verdict: format!(
                "Cannot be bent as drawn: {} turns {angle}, and {who} bends no more than {}.",
                subject.bend(index),
                most.resting_on(ground)
            ),
            cures,
        });
    }
}

/// A bend that the machine reaches as drawn, and no longer when springback is added.
fn set_beyond(subject: &Subject, index: usize) -> Option<Finding> {
    let (made, machine) = (&subject.solved.bends[index], &subject.shop.machine);
    let released = made.formed?.released?;
    let limit = machine.largest_angle;
    if released.set_angle_rad <= limit.radians() + SAME_RAD {
        return None;
    }
    let set = degrees(released.set_angle_rad).resting_on(released.basis);
    let most = degrees(limit.radians()).resting_on(machine.basis);
    // Down to a tenth, so that what the label says is what its edit does and suffices.
    let reached = (released.line.free(limit).degrees() * 10.0 + 1e-6).floor() / 10.0;
    let cures = if reached > 0.0 {
        vec![Cure {
            label: format!("Set the angle to {reached:.1}°"),
            edit: Edit::SetAngle(subject.solved.nodes.bend(index), Angle::from_degrees(reached)),
            risk: "Everything beyond turns along: the part becomes another.".into(),
        }]
    } else {
        Vec::new()
    };
    let severity = released.basis.grave(Severity::Stop);
    let what = format!("{} has to be set to {set}, and the machine bends no more than {most}", subject.bend(index));
    Some(Finding {
        fault: CHECK.fault,
        severity,
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: released.set_angle_rad.to_degrees(),
        limit: limit.degrees(),
        unit: Unit::Degree,
        measured_basis: Some(released.basis.into()),
        limit_basis: Some(machine.basis.into()),
        text: with_cures(
            format_args!(
                "Bend {}: with its springback it has to be set to {set}, more than the {most} that the machine ({}) bends \
             (springback: {}).",
                subject.number(index),
                machine.name,
                Ground::from(released.basis).said()
            ),
            &cures,
        ),
        verdict: match severity {
            Severity::Stop => format!("Cannot be bent as drawn: {what}."),
            Severity::Caution | Severity::Note => format!("May not bend as drawn: {what}."),
        },
        cures,
    })
}
