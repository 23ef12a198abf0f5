//! `seam-in-the-stretch`: the weld seam comes near the outside of a bend.

use elbowroom_geometry::Angle;

use super::words::{Marked, degrees, percent, with_cures};
use super::{About, Check, SAME_RAD, Subject};
use crate::forming::ground::Ground;
use crate::layout::formed::best_seam;
use crate::seam::SeamLay;
use crate::{Cure, Edit, Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "seam-in-the-stretch",
    summary: "The weld seam comes near the outside of a bend, where it is stretched.",
    manual: MANUAL,
    about: About::Rest,
    run,
};

const MANUAL: &str = "\
What it looks for
  A bend at which the weld seam lies nearer to the outside than the shop allows. One finding a part, at
  the bend where it is nearest.

Why it matters
  The outside of a bend is stretched most, and the seam and the metal beside it give less than the rest.
  A poor seam splits there first. At the side of the bend, on the neutral line, it is hardly strained.

How it is measured
  A tube does not twist, so the seam's clock position at a bend is its position at bend 1 and all rotations
  since. 0 is the outside of the bend, 90 degrees its side. Unless you pin the seam, it starts where the
  worst strain along the whole part is the smallest there is, each bend counted with its own stretch.

Limit and its source
  The angle from the outside in the shop file under limits, 45 degrees to start with: common practice, no
  source. That the seam belongs near the neutral axis is practice in the trade; 16 NYCRR 255.313(b) asks
  it of field bends in gas pipe, unless an internal mandrel is used. A caution where you pinned the seam
  there, a note where no start position avoids it.

Example
  Three equal bends whose planes lie 60 degrees apart: wherever the seam starts, it comes within 30 degrees
  of the outside or the inside of one of them. The start is then chosen so that it is gathered there
  rather than stretched, if that is to be had.

Cure and its risk
  Leave the seam to the best start position. Where that is not enough, take tube whose seam is proved to
  bend, or seamless tube; try a bend on scrap with the seam at the outside.

Caution
  A split seam under a car lets exhaust gas out, which is poisonous. Look at the seam of every bend, and
  test the finished pipe for leaks.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let (solved, limits) = (subject.solved, &subject.shop.limits);
    let Some(seam) = &solved.seam else { return };
    let is_counted = |index: &usize| solved.bends[*index].formed.is_some();
    let nearest = |lay: &SeamLay| {
        let counted = solved.in_order().filter(is_counted);
        let away = counted.filter_map(|index| lay.from_outside(index).map(|away| (index, away)));
        // Of several alike the one that is made first.
        away.reduce(|best, next| if next.1.radians() < best.1.radians() - SAME_RAD { next } else { best })
    };
    let Some((index, away)) = nearest(seam) else { return };
    let limit = limits.seam_from_outside;
    if away.radians() >= limit.radians() - SAME_RAD {
        return;
    }
    let mut cures = Vec::new();
    let is_pinned = subject.part.tooling.seam_start.is_some();
    if is_pinned {
        let best = best_seam(subject.part, &solved.rows_in_order());
        if nearest(&best).is_some_and(|(_, best_away)| best_away.radians() > away.radians() + SAME_RAD) {
            cures.push(leave_to_best(subject, best.start));
        }
    }
    let (off, asked) = (degrees(away.radians()), degrees(limit.radians()).resting_on(limits.basis));
    let strain = solved.bends[index].formed.map_or(0.0, |formed| formed.outer_stretch * away.radians().cos());
    let this = subject.bend(index);
    let why = if is_pinned { "it is pinned so" } else { "no start position keeps it further from the strain" };
    findings.push(Finding {
        fault: CHECK.fault,
        severity: if is_pinned { Severity::Caution } else { Severity::Note },
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: away.degrees(),
        limit: limit.degrees(),
        unit: Unit::Degree,
        measured_basis: None,
        limit_basis: Some(limits.basis.into()),
        text: with_cures(format_args!(
            "Bend {}: the seam lies {off} from the outside and is stretched by {}; {asked} are wanted ({}), and {why}.",
            subject.number(index),
            percent(strain),
            Ground::from(limits.basis).said()), &cures),
        verdict: if is_pinned {
            format!("Bends, but the seam is pinned {off} from the outside of {this}.")
        } else {
            format!("Bends as drawn; the seam comes within {off} of the outside of {this}.")
        },
        cures,
    });
}

fn leave_to_best(subject: &Subject, start: Angle) -> Cure {
    Cure {
        label: format!(
            "Leave the seam to the best start position, {} at {}",
            degrees(start.radians()),
            subject.bend(0)
        ),
        edit: Edit::PinSeam(None),
        risk: "The tube must be put into the chuck with its seam there.".into(),
    }
}
