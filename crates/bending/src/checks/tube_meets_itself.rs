//! `tube-meets-itself`: two places of the tube want the same room.

use elbowroom_geometry::{Meeting, self_clearances};

use super::cures::die_radii;
use super::words::with_cures;
use super::{About, Check, SAME_MM, Subject};
use crate::{Finding, Place, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "tube-meets-itself",
    summary: "Two places of the tube want the same room, or a bend folds into itself.",
    manual: MANUAL,
    about: About::Rest,
    run,
};

const MANUAL: &str = "\
What it looks for
  Two places of the finished tube that are nearer than its outside diameter, and a bend whose radius is
  not more than half the outside diameter, so that its inside folds into itself.

Why it matters
  The bend that closes the gap cannot be finished: the tube runs into itself on the machine, with the
  force of the bend arm behind it.

How it is measured
  The smallest distance between the centrelines of the two stretches, centre to centre. Neighbours that
  the tube itself joins do not count, and neither does a drawing that turns straight back on itself, which
  is told by path-undefined. Trims are not counted, and neither is the way the tube swings while
  it is bent: a part that is free when finished may still hit itself or the machine on the way.

Limit and its source
  The outside diameter, and half of it for the radius. Geometry. Leave more: a finished tube that just
  touches rattles. Common practice, no source.

Example
  A U-bend of 180° at CLR 25 mm in 50.8 mm tube: its legs are 50 mm apart and meet.

Cure and its risk
  Turn one of the bends, lengthen a straight or take a larger radius. Which is right depends on what the
  tube has to go round, so only the radius is offered as a button.

Caution
  Keep clear of the swing of the tube, and run the first piece slowly. Follow the machine maker's rules
  and local law.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let solved = subject.solved;
    let od_mm = subject.part.tube.od.mm();
    for (index, made) in solved.bends.iter().enumerate() {
        if made.is_bent() && made.clr_mm <= od_mm / 2.0 + SAME_MM && !subject.is_fold_back(index) {
            findings.push(folded(subject, index, od_mm / 2.0));
        }
    }
    for meeting in self_clearances(&solved.centreline, od_mm) {
        if lies_back(subject, &meeting) {
            continue;
        }
        let name = |element: usize| {
            if element.is_multiple_of(2) { subject.straight(element / 2) } else { subject.bend(element / 2) }
        };
        let (first, second) = (name(meeting.first_element), name(meeting.second_element));
        let meets = if first == second { format!("{first} meets itself") } else { format!("{first} meets {second}") };
        findings.push(Finding {
            fault: CHECK.fault,
            severity: Severity::Stop,
            place: place(meeting.first_element, meeting.first_stretch_mm),
            also: vec![place(meeting.second_element, meeting.second_stretch_mm)],
            measured: meeting.distance_mm,
            limit: od_mm,
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: None,
            text: format!(
                "The tube meets itself: {first} at {} and {second} at {} along the tube are {} apart at their centres, and \
                 {} tube needs its own diameter.",
                subject.length(meeting.first_mm),
                subject.length(meeting.second_mm),
                subject.length(meeting.distance_mm),
                subject.length(od_mm)
            ),
            verdict: format!("Cannot be bent as drawn: the tube meets itself, as {meets}."),
            cures: Vec::new(),
        });
    }
}

/// Whether the tube meets itself only because the drawing turns straight back: path-undefined says so.
fn lies_back(subject: &Subject, meeting: &Meeting) -> bool {
    let mut between = meeting.first_element.div_ceil(2)..meeting.second_element / 2;
    let is_straight = |index: usize| !subject.solved.bends[index].is_bent();
    between.clone().any(|index| subject.is_fold_back(index))
        && between.all(|index| is_straight(index) || subject.is_fold_back(index))
}

/// A stretch of an element: even for straights, odd for arcs.
fn place(element: usize, (from_mm, to_mm): (f64, f64)) -> Place {
    let is_arc = element % 2 == 1;
    Place { from_mm, to_mm, bend: is_arc.then_some(element / 2), straight: (!is_arc).then_some(element / 2) }
}

fn folded(subject: &Subject, index: usize, half_mm: f64) -> Finding {
    let made = &subject.solved.bends[index];
    let cures = die_radii(subject, index);
    let clr = subject.length(made.clr_mm);
    Finding {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: made.clr_mm,
        limit: half_mm,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
        text: with_cures(
            format_args!(
                "Bend {}: CLR {clr} is not more than half the outside diameter ({}), so the inside of the bend folds into \
             itself.",
                subject.number(index),
                subject.length(half_mm)
            ),
            &cures,
        ),
        verdict: format!(
            "Cannot be bent as drawn: the inside of {} folds into itself at CLR {clr}.",
            subject.bend(index)
        ),
        cures,
    }
}
