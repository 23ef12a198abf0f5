//! `arcs-overlap`: two bends want the same stretch of tube.

use elbowroom_geometry::Length;

use super::cures::lengthen;
use super::ends::Leg;
use super::words::with_cures;
use super::{About, Check, SAME_MM, Subject};
use crate::{Cure, Edit, End, Finding, Place, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "arcs-overlap",
    summary: "Two bends want the same stretch of tube, or a bend runs past an end.",
    manual: MANUAL,
    about: About::Rest,
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
  as the setback of a bend, pertneer.net/tubebending.php). The overlap is what is missing to zero.

Limit and its source
  Zero. Geometry. What the clamp needs on top is said by straight-too-short.

Example
  Two 90° bends of radius 76.2 mm with vertices 100 mm apart: 100 - 76.2 - 76.2 = -52.4 mm.

Cure and its risk
  Lengthen the straight; all beyond keeps its direction and moves along. Or take a smaller radius or a
  shallower angle: a smaller radius thins the outside wall more and needs another die.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let solved = subject.solved;
    let Some(last) = solved.in_order().next_back() else { return };
    let mut before: Option<usize> = None;
    for index in solved.in_order() {
        let made = &solved.bends[index];
        let straight_mm = made.straight_ahead_mm;
        if straight_mm < -SAME_MM {
            let needs_mm = made.clamp.filter(|_| before.is_some()).map(|clamp| clamp.needs_straight_mm);
            let to_mm = needs_mm.unwrap_or_else(|| square_mm(subject)).max(0.0);
            let what = match before {
                Some(before) => {
                    let (first, second) = (index.min(before), index.max(before));
                    format!("{} and {} overlap", subject.capital_bend(first), subject.bend(second))
                }
                None => past(subject, index, solved.from),
            };
            let place = subject.place_ahead(index);
            findings.push(finding(subject, place, straight_mm, &what, lengthen(subject, index, to_mm)));
        }
        before = Some(index);
    }
    let Some([_, tail]) = Leg::both(subject) else { return };
    if tail.length_mm < -SAME_MM {
        let what = past(subject, last, tail.end);
        let straight = tail.straight(solved);
        let to_mm = subject.round_mm(square_mm(subject) - tail.length_mm + solved.straights_mm[straight]);
        let cure = Cure {
            label: format!("Lengthen {} to {}", subject.leg(tail.end), subject.length(to_mm)),
            edit: Edit::SetStraight(solved.nodes.straight(straight), Length::from_mm(to_mm)),
            risk: subject.moves_out(tail.end).into(),
        };
        findings.push(finding(subject, Place { straight: Some(straight), ..tail.place }, tail.length_mm, &what, cure));
    }
}

/// An end of this length stays square after bending, mm.
fn square_mm(subject: &Subject) -> f64 {
    subject.shop.machine.square_end_diameters * subject.part.tube.od.mm()
}

/// A bend that leaves no leg at an end.
fn past(subject: &Subject, index: usize, end: End) -> String {
    let does = match (subject.from(), end) {
        (End::Start, End::Start) => "begins before the lead end",
        (End::Start, End::Finish) => "runs past the tail end",
        (End::Finish, End::Start) => "begins before the start",
        (End::Finish, End::Finish) => "runs past the finish",
    };
    format!("{} {does}", subject.capital_bend(index))
}

fn finding(subject: &Subject, place: Place, straight_mm: f64, what: &str, cure: Cure) -> Finding {
    let missing = subject.length(-straight_mm);
    let cures = vec![cure];
    Finding {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place,
        also: Vec::new(),
        measured: straight_mm,
        limit: 0.0,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
        text: with_cures(format_args!("{what} by {missing}."), &cures),
        verdict: format!("Cannot be bent as drawn: {} by {missing}.", what.replacen('B', "b", 1)),
        cures,
    }
}
