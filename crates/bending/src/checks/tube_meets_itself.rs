//! `tube-meets-itself`: two places of the tube want the same room.

use elbowroom_geometry::{Meeting, self_clearances};

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::cures::die_radii;
use super::finding::{Facts, Place, Severity, Unit};
use super::name::Name;
use super::subject::Subject;
use super::words::Words;
use crate::model::nearly::SAME_MM;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "tube-meets-itself",
    title: "Tube meets itself",
    severity: "Always a stop.",
    summary: "Two places of the tube want the same room, or a bend folds into itself.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Meeting,
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

/// A tube that wants the same room twice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// A bend that folds into itself, by its number. Its radius is what was measured.
    Folded(u32),
    /// Two places, each with how far along the tube it lies, mm from the start of the drawing. Their distance is what was
    /// measured.
    Meets([(Name, f64); 2]),
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    let od_mm = subject.part.tube.od.mm();
    for (index, made) in solved.bends.iter().enumerate() {
        if made.is_bent() && made.clr_mm <= od_mm / 2.0 + SAME_MM && !subject.is_fold_back(index) {
            let facts = facts(subject.arc_place(index), Vec::new(), made.clr_mm, od_mm / 2.0);
            tell(facts, Evidence::Folded(subject.number(index)));
        }
    }
    for meeting in self_clearances(&solved.centreline, od_mm) {
        if lies_back(subject, &meeting) {
            continue;
        }
        let named = |element: usize, at_mm: f64| {
            let is_straight = element.is_multiple_of(2);
            let name = if is_straight { subject.straight(element / 2) } else { subject.bend(element / 2) };
            (name, at_mm)
        };
        let also = vec![place(meeting.second_element, meeting.second_stretch_mm)];
        let facts =
            facts(place(meeting.first_element, meeting.first_stretch_mm), also, meeting.distance_mm, od_mm);
        let first = named(meeting.first_element, meeting.first_mm);
        tell(facts, Evidence::Meets([first, named(meeting.second_element, meeting.second_mm)]));
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

fn facts(place: Place, also: Vec<Place>, measured: f64, limit: f64) -> Facts {
    Facts {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place,
        also,
        measured,
        limit,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        match self {
            Self::Folded(bend) => format!(
                "Bend {bend}: CLR {} is not more than half the outside diameter ({}), so the inside of the bend folds \
                 into itself.",
                words.length(facts.measured),
                words.length(facts.limit)
            ),
            Self::Meets([(first, first_mm), (second, second_mm)]) => format!(
                "The tube meets itself: {first} at {} and {second} at {} along the tube are {} apart at their centres, \
                 and {} tube needs its own diameter.",
                words.length(*first_mm),
                words.length(*second_mm),
                words.length(facts.measured),
                words.length(facts.limit)
            ),
        }
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        match self {
            Self::Folded(bend) => format!(
                "Cannot be bent as drawn: the inside of bend {bend} folds into itself at CLR {}.",
                words.length(facts.measured)
            ),
            Self::Meets([(first, _), (second, _)]) if first == second => {
                format!("Cannot be bent as drawn: the tube meets itself, as {first} meets itself.")
            }
            Self::Meets([(first, _), (second, _)]) => {
                format!("Cannot be bent as drawn: the tube meets itself, as {first} meets {second}.")
            }
        }
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        match self {
            Self::Folded(_) => die_radii(subject, facts.place.bend?),
            Self::Meets(_) => None,
        }
    }
}
