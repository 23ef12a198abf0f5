//! `angle-beyond-machine`: a bend turns further than the bend arm or the die does.

use elbowroom_geometry::Angle;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{Cures, Remedy};
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::name::DieNumber;
use super::words::{Marked, Words};
use crate::{Basis, SolvedBend};
use crate::model::nearly::SAME_RAD;
use crate::forming::ground::Ground;
use elbowroom_geometry::units::Shown;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "angle-beyond-machine",
    title: "Angle beyond the machine",
    severity: "A stop; a caution where only springback by theory takes the angle to set beyond the limit.",
    summary: "A bend turns further than the bend arm reaches or the die is cut for.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Angle,
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

/// A bend that turns too far.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// As drawn, for a die set or else for the machine.
    Drawn(u32, Option<DieNumber>),
    /// Once springback is added, for the machine.
    Set(u32),
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    for (index, made) in subject.solved.bends.iter().enumerate() {
        if !made.is_bent() || subject.is_fold_back(index) {
            continue;
        }
        let (limit, die, basis) = limit(subject, made);
        if made.angle_rad <= limit.radians() + SAME_RAD {
            set_beyond(subject, index, tell);
            continue;
        }
        let facts = Facts {
            fault: CHECK.fault,
            severity: Severity::Stop,
            place: subject.arc_place(index),
            also: Vec::new(),
            measured: made.angle_rad.to_degrees(),
            limit: limit.degrees(),
            unit: Unit::Degree,
            measured_basis: None,
            limit_basis: Some(basis.into()),
        };
        tell(facts, Evidence::Drawn(subject.number(index), die));
    }
}

/// How far a bend may turn as drawn, by which die set, if by one, and what that rests on.
fn limit(subject: &Subject, made: &SolvedBend) -> (Angle, Option<DieNumber>, Basis) {
    let machine = &subject.shop.machine;
    match subject.numbered_die_of(made).filter(|(_, die)| die.largest_angle < machine.largest_angle) {
        Some((number, die)) => (die.largest_angle, Some(number), die.basis),
        None => (machine.largest_angle, None, machine.basis),
    }
}

/// A bend that the machine reaches as drawn, and no longer when springback is added.
fn set_beyond(subject: &Subject, index: usize, tell: Tell<Evidence>) {
    let (made, machine) = (&subject.solved.bends[index], &subject.shop.machine);
    let limit = machine.largest_angle;
    let Some(released) = made.formed.and_then(|formed| formed.released) else { return };
    if released.set_angle_rad <= limit.radians() + SAME_RAD {
        return;
    }
    let facts = Facts {
        fault: CHECK.fault,
        severity: Severity::Stop.by_springback(released.basis),
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: released.set_angle_rad.to_degrees(),
        limit: limit.degrees(),
        unit: Unit::Degree,
        measured_basis: Some(released.basis.into()),
        limit_basis: Some(machine.basis.into()),
    };
    tell(facts, Evidence::Set(subject.number(index)));
}

fn shown(facts: &Facts) -> [Shown; 2] {
    let degrees = |value, basis: Option<Ground>| Shown::new(value, 1, "°").resting(basis);
    [degrees(facts.measured, facts.measured_basis), degrees(facts.limit, facts.limit_basis)]
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let ([angle, most], machine) = (shown(facts), &words.shop.machine.name);
        match self {
            Self::Drawn(bend, Some(die)) => {
                format!("Bend {bend}: {angle} is more than the {most} that die set {} bends.", words.die(*die))
            }
            Self::Drawn(bend, None) => {
                format!("Bend {bend}: {angle} is more than the {most} that the machine ({machine}) bends.")
            }
            Self::Set(bend) => format!(
                "Bend {bend}: with its springback it has to be set to {angle}, more than the {most} that the machine \
                 ({machine}) bends (springback: {}).",
                facts.measured_basis.map_or("", Ground::said)
            ),
        }
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let ([angle, most], machine) = (shown(facts), &words.shop.machine.name);
        let bends = |bend: &u32, who: &str| {
            format!("Cannot be bent as drawn: bend {bend} turns {angle}, and {who} bends no more than {most}.")
        };
        match self {
            Self::Drawn(bend, Some(die)) => bends(bend, &format!("die set {}", words.die(*die))),
            Self::Drawn(bend, None) => bends(bend, &format!("the machine ({machine})")),
            Self::Set(bend) => {
                let first = match facts.severity {
                    Severity::Stop => "Cannot be bent as drawn",
                    Severity::Caution | Severity::Note => "May not bend as drawn",
                };
                format!("{first}: bend {bend} has to be set to {angle}, and the machine bends no more than {most}.")
            }
        }
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let index = facts.place.bend?;
        let made = &subject.solved.bends[index];
        let angle = match self {
            Self::Drawn(..) => limit(subject, made).0,
            Self::Set(_) => {
                let line = made.formed?.released?.line;
                // Down to a tenth, so that what the label says is what its edit does and suffices.
                let reached = (line.free(subject.shop.machine.largest_angle).degrees() * 10.0 + 1e-6).floor() / 10.0;
                Angle::from_degrees(reached)
            }
        };
        let turn_less = Remedy::SetAngle { bend: subject.solved.nodes.bend(index), angle };
        (angle > Angle::ZERO).then(|| turn_less.into())
    }
}
