//! `arcs-overlap`: two bends want the same stretch of tube.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{Cures, Remedy};
use super::cures::lengthen;
use super::ends::Leg;
use super::finding::{Facts, Place, Severity, Unit};
use super::name::TubeEnd;
use super::subject::Subject;
use super::words::{Words, lower_first};
use crate::model::nearly::SAME_MM;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "arcs-overlap",
    title: "Overlapping arcs",
    severity: "Always a stop.",
    summary: "Two bends want the same stretch of tube, or a bend runs past an end.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Leg,
    run,
};

const MANUAL: &str = "\
What it looks for
  A straight with a length below zero: the arcs on both sides of it overlap, or an arc begins before the
  end of the tube.

Why it matters
  There is no tube to bend there. No tooling helps.

How it is measured
  The straight is the distance of two vertices less the tangent length R tan(θ/2) of each bend (published
  as the tangent of a circular curve in surveying texts: thesurveyschool.com, FS-5-f). The overlap is
  what is missing to zero.

Limit and its source
  Zero. Geometry. What the clamp needs on top is said by straight-too-short.

Example
  Two 90° bends of radius 76.2 mm with vertices 100 mm apart: 100 - 76.2 - 76.2 = -52.4 mm.

Cure and its risk
  Lengthen the straight; all beyond keeps its direction and moves along. Or take a smaller radius or a
  shallower angle: a smaller radius thins the outside wall more and needs another die.
";

/// Arcs that want the same tube, bends by their numbers. What is missing is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// Two bends, in the order of the drawing.
    Overlap(u32, u32),
    /// A bend that leaves no leg at an end.
    Past(u32, TubeEnd),
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    let Some(last) = solved.in_order().next_back() else { return };
    let mut before: Option<usize> = None;
    for index in solved.in_order() {
        let made = &solved.bends[index];
        let straight_mm = made.straight_ahead_mm;
        if straight_mm < -SAME_MM {
            let this = subject.number(index);
            let evidence = match before.map(|before| subject.number(before)) {
                Some(before) => Evidence::Overlap(this.min(before), this.max(before)),
                None => Evidence::Past(this, subject.end(solved.from)),
            };
            tell(facts(subject.place_ahead(index), straight_mm), evidence);
        }
        before = Some(index);
    }
    let Some([_, tail]) = Leg::both(subject) else { return };
    if tail.length_mm < -SAME_MM {
        let straight = tail.straight(solved);
        let place = Place { straight: Some(straight), ..tail.place };
        tell(facts(place, tail.length_mm), Evidence::Past(subject.number(last), tail.end));
    }
}

/// An end of this length stays square after bending, mm.
fn square_mm(subject: &Subject) -> f64 {
    subject.shop.machine.square_end_diameters * subject.part.tube.od.mm()
}

fn facts(place: Place, straight_mm: f64) -> Facts {
    Facts {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place,
        also: Vec::new(),
        measured: straight_mm,
        limit: 0.0,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let missing = words.length(-facts.measured);
        match self {
            Self::Overlap(first, second) => format!("Bend {first} and bend {second} overlap by {missing}."),
            Self::Past(bend, end) => format!("Bend {bend} {} by {missing}.", end.passed()),
        }
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        format!("Cannot be bent as drawn: {}", lower_first(&self.text(facts, words)))
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let solved = subject.solved;
        match self {
            Self::Past(_, end) if end.end != solved.from => {
                let straight = facts.place.straight?;
                let to_mm = subject.round_mm(square_mm(subject) - facts.measured + solved.straights_mm[straight]);
                Some(Remedy::LengthenLeg { straight: solved.nodes.straight(straight), end: *end, to_mm }.into())
            }
            Self::Past(..) => Some(lengthen(subject, facts.place.bend?, square_mm(subject).max(0.0)).into()),
            Self::Overlap(..) => {
                let index = facts.place.bend?;
                let needs_mm = solved.bends[index].clamp.map(|clamp| clamp.needs_straight_mm);
                let to_mm = needs_mm.unwrap_or_else(|| square_mm(subject)).max(0.0);
                Some(lengthen(subject, index, to_mm).into())
            }
        }
    }
}
