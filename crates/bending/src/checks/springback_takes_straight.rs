//! `springback-takes-straight`: what no longer fits when the released bends have grown.

use super::cures::lengthen;
use super::ends::Leg;
use super::words::{Marked, degrees, with_cures};
use super::{About, Check, SAME_MM, Subject};
use crate::forming::ground::Ground;
use crate::layout::released::ReleasedTube;
use crate::{ClampOnTube, Cure, Edit, Finding, Place, Released, Severity, SolvedBend, Unit};
use elbowroom_geometry::Length;

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "springback-takes-straight",
    summary: "A straight that is long enough as drawn is too short once the bends beside it have sprung back.",
    manual: MANUAL,
    about: About::Rest,
    run,
};

const MANUAL: &str = "\
What it looks for
  A straight that is enough for the clamp as drawn, and no longer when the radii of the bends beside it
  have grown. Also bends that then overlap or run past an end.

Why it matters
  A tube opens when it is let go. So it is bent further than drawn, and because the arc keeps its length,
  its radius grows. The program is worked out for the grown radius, so that the vertices land where they
  were drawn, and of a U the crown. The straights between give way a little, and it is on those that the
  clamp closes.

How it is measured
  The free radius is the die's radius times set angle over free angle. It takes (free radius - drawn radius)
  times tan(half the angle) off the straight on either side. From 150 degrees on that would push the arc
  along its legs, so its crown is held instead, wholly from 170 degrees on: it then takes the growth of the
  radius times sin(half the angle). What is left is compared with what the clamp needs, with what leaves no
  mark, and with nothing at all. The clamp closes on the released tube, so its bite is found there: on arcs
  of the free radius, and on straights that have given way. A larger radius curves away less, so a little
  less straight will do than on the drawn arcs. A lead leg or tail that gets too short to hold is stock,
  which the bend program adds; it is not a finding here.

Limit and its source
  The same as for straight-too-short and clamp-across-arc. Where the springback was measured, by trial
  bends or by a line of the shop's own, it is a stop if the clamp does not close and a caution if it will
  mark. Where it rests on theory it is one step milder, because theory is only a start.

Example
  50.8 mm tube, 76.2 mm die, springback of 2 degrees at 90: the free radius is 77.9 mm and takes 1.7 mm off
  the straight on each side. Of 108.0 mm between two such bends 104.6 mm are left, and a 125 mm clamp needs
  107.4 mm there: in an arc of 77.9 mm the bite is 2 mm at 17.7 mm.

Cure and its risk
  Lengthen the straight by what springback takes. All that lies beyond moves along.

Caution
  A bend that springs back moves on its own when the clamp opens. Keep hands away until it has.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let solved = subject.solved;
    let mut released_tube = None;
    for (index, made) in solved.bends.iter().enumerate() {
        let Some(released) = made.formed.and_then(|formed| formed.released) else { continue };
        let (drawn_mm, left_mm) = (made.straight_ahead_mm, released.straight_ahead_mm);
        let what = if drawn_mm >= -SAME_MM && left_mm < -SAME_MM {
            // What is cured has to hold a clamp as well, or the next finding would stand there.
            let holds = made.clamp.as_ref().zip(subject.die_of(made)).filter(|_| subject.bend_before(index).is_some());
            let needs_mm = holds.map_or(0.0, |(clamp, die)| {
                let tube = released_tube.get_or_insert_with(|| ReleasedTube::of(solved));
                tube.lay(index, made, clamp, die).mark_free_straight_mm.max(clamp.mark_free_straight_mm)
            });
            Some(Lost::Everything(needs_mm))
        } else if let (Some(clamp), Some(die)) = (&made.clamp, subject.die_of(made)) {
            // A clamp that still lies on the straight meets no arc, and what is too short as drawn is told by
            // straight-too-short.
            let is_near = left_mm < clamp.length_mm - SAME_MM && drawn_mm >= clamp.needs_straight_mm - SAME_MM;
            if is_near && subject.bend_before(index).is_some() {
                let tube = released_tube.get_or_insert_with(|| ReleasedTube::of(solved));
                Lost::on(made, clamp, &tube.lay(index, made, clamp, die))
            } else {
                None
            }
        } else {
            None
        };
        findings.extend(what.map(|what| what.finding(subject, index, &released)));
    }
    findings.extend(past_the_tail(subject));
}

/// What is no longer to be had.
#[derive(Clone, Copy)]
enum Lost {
    /// The straight itself, where a clamp leaves no mark from so much on, mm.
    Everything(f64),
    /// What a clamp of this length needs, mm.
    Hold(f64, f64),
    /// What a clamp of this length needs to leave no mark, mm.
    Polish(f64, f64),
}

fn verdict(severity: Severity, what: &str) -> String {
    match severity {
        Severity::Stop => format!("Cannot be bent as drawn: {what}."),
        Severity::Caution => format!("Bends, but {what}."),
        Severity::Note => format!("Bends as drawn; {what}."),
    }
}

impl Lost {
    /// What a clamp that does as drawn lacks on the released tube.
    fn on(made: &SolvedBend, as_drawn: &ClampOnTube, released: &ClampOnTube) -> Option<Self> {
        let left_mm = made.formed?.released?.straight_ahead_mm;
        let lacks = |drawn_needs_mm: f64, needs_mm: f64| {
            made.straight_ahead_mm >= drawn_needs_mm - SAME_MM && left_mm < needs_mm - SAME_MM
        };
        let (holds_mm, free_mm) = (released.needs_straight_mm, released.mark_free_straight_mm);
        if lacks(as_drawn.needs_straight_mm, holds_mm) {
            Some(Self::Hold(as_drawn.length_mm, holds_mm))
        } else if lacks(as_drawn.mark_free_straight_mm, free_mm) {
            Some(Self::Polish(as_drawn.length_mm, free_mm))
        } else {
            None
        }
    }

    fn finding(self, subject: &Subject, index: usize, released: &Released) -> Finding {
        let made = &subject.solved.bends[index];
        let (drawn_mm, left_mm) = (made.straight_ahead_mm, released.straight_ahead_mm);
        let limit_basis = match self {
            Self::Everything(_) => None,
            Self::Hold(..) | Self::Polish(..) => subject.die_of(made).map(|die| Ground::from(die.basis)),
        };
        let at_least = |needed_mm: f64| {
            let needed = subject.at_least(needed_mm);
            limit_basis.map_or(needed, |ground| needed.resting_on(ground))
        };
        let (needed_mm, worst, needs, short) = match self {
            Self::Everything(_) => (0.0, Severity::Stop, String::new(), "leaves no straight"),
            Self::Hold(clamp_mm, needed_mm) => (
                needed_mm,
                Severity::Stop,
                format!(", and the {} clamp needs {} here", subject.length(clamp_mm), at_least(needed_mm)),
                "leaves too little straight for the clamp",
            ),
            Self::Polish(clamp_mm, needed_mm) => (
                needed_mm,
                Severity::Caution,
                format!(", and the {} clamp leaves no mark from {} on", subject.length(clamp_mm), at_least(needed_mm)),
                "lets the clamp leave a mark",
            ),
        };
        let severity = released.basis.grave(worst);
        let leaving_mm = match self {
            Self::Everything(clamp_mm) => clamp_mm,
            Self::Hold(..) | Self::Polish(..) => needed_mm,
        };
        let cures = vec![lengthen(subject, index, leaving_mm + drawn_mm - left_mm)];
        Finding {
            fault: CHECK.fault,
            severity,
            place: subject.place_ahead(index),
            also: Vec::new(),
            measured: left_mm,
            limit: needed_mm,
            unit: Unit::Millimetre,
            measured_basis: Some(released.basis.into()),
            limit_basis,
            text: with_cures(
                format_args!(
                    "Bend {}: springback takes {} of {}, and {} are left{needs} ({}).",
                    subject.number(index),
                    subject.length(drawn_mm - left_mm).resting_on(released.basis),
                    subject.straight_ahead(index),
                    subject.length(left_mm).resting_on(released.basis),
                    said(released)
                ),
                &cures,
            ),
            verdict: verdict(severity, &format!("springback {short} {}", subject.ahead(index))),
            cures,
        }
    }
}

fn said(released: &Released) -> String {
    format!(
        "set {}, {}",
        degrees(released.set_angle_rad).resting_on(released.basis),
        Ground::from(released.basis).said()
    )
}

/// The last bend, grown past the tail end.
fn past_the_tail(subject: &Subject) -> Option<Finding> {
    let solved = subject.solved;
    let last = solved.in_order().next_back()?;
    let made = &solved.bends[last];
    let released = made.formed?.released?;
    let [_, tail] = Leg::both(subject)?;
    let drawn_mm = tail.length_mm;
    let left_mm = drawn_mm - released.takes_mm;
    if drawn_mm < -SAME_MM || left_mm >= -SAME_MM {
        return None;
    }
    let severity = released.basis.grave(Severity::Stop);
    let straight = tail.straight(solved);
    let to_mm = subject.round_mm(solved.straights_mm[straight] - left_mm);
    let cures = vec![Cure {
        label: format!("Lengthen {} to {}", tail.leg, subject.length(to_mm)),
        edit: Edit::SetStraight(solved.nodes.straight(straight), Length::from_mm(to_mm)),
        risk: subject.moves_out(tail.end).into(),
    }];
    Some(Finding {
        fault: CHECK.fault,
        severity,
        place: Place { straight: Some(straight), ..tail.place },
        also: Vec::new(),
        measured: left_mm,
        limit: 0.0,
        unit: Unit::Millimetre,
        measured_basis: Some(released.basis.into()),
        limit_basis: None,
        text: with_cures(
            format_args!(
                "Bend {}: springback takes {} of {}, and it runs past the end by {} ({}).",
                subject.number(last),
                subject.length(released.takes_mm).resting_on(released.basis),
                tail.leg,
                subject.length(-left_mm).resting_on(released.basis),
                said(&released)
            ),
            &cures,
        ),
        verdict: verdict(severity, &format!("springback leaves nothing of {}", tail.leg)),
        cures,
    })
}
