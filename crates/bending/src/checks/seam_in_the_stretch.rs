//! `seam-in-the-stretch`: the weld seam comes near the outside of a bend.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{Cures, Remedy};
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words, percent};
use crate::model::nearly::SAME_RAD;
use crate::forming::ground::Ground;
use crate::layout::form::best_seam;
use crate::LaidOut;
use crate::seam::SeamLay;
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::Shown;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "seam-in-the-stretch",
    title: "Seam in the stretch",
    severity: "A caution where the seam is pinned so; a note where no start position is better.",
    summary: "The weld seam comes near the outside of a bend, where it is stretched.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Seam,
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

/// A seam near the outside of a bend. The angle between them is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// The bend, by its number.
    bend: u32,
    /// The strain of the seam there, as a share.
    strain: f64,
    /// Whether the person put it there.
    is_pinned: bool,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let (solved, limits) = (subject.solved, &subject.shop.limits);
    let Some(seam) = &solved.seam else { return };
    let Some((index, away)) = nearest(solved, seam) else { return };
    let limit = limits.seam_from_outside;
    if away.radians() >= limit.radians() - SAME_RAD {
        return;
    }
    let is_pinned = subject.part.tooling.seam_start.is_some();
    let facts = Facts {
        fault: CHECK.fault,
        severity: if is_pinned { Severity::Caution } else { Severity::Note },
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: away.degrees(),
        limit: limit.degrees(),
        unit: Unit::Degree,
        measured_basis: None,
        limit_basis: Some(limits.basis.into()),
    };
    let strain = solved.bends[index].formed.map_or(0.0, |formed| formed.outer_stretch() * away.radians().cos());
    tell(facts, Evidence { bend: subject.number(index), strain, is_pinned });
}

/// The bend at which a seam lies nearest to the outside, and how far from it: of several alike the one that is made first.
fn nearest(solved: &LaidOut, lay: &SeamLay) -> Option<(usize, Angle)> {
    let counted = solved.in_order().filter(|index| solved.bends[*index].formed.is_some());
    let away = counted.filter_map(|index| lay.from_outside(index).map(|away| (index, away)));
    away.reduce(|best, next| if next.1.radians() < best.1.radians() - SAME_RAD { next } else { best })
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, _: &Words) -> String {
        let why = if self.is_pinned { "it is pinned so" } else { "no start position keeps it further from the strain" };
        format!(
            "Bend {}: the seam lies {} from the outside and is stretched by {}; {} are wanted ({}), and {why}.",
            self.bend,
            Shown::new(facts.measured, 1, "°"),
            percent(self.strain),
            Shown::new(facts.limit, 1, "°").resting(facts.limit_basis),
            facts.limit_basis.map_or("", Ground::said)
        )
    }

    fn verdict(&self, facts: &Facts, _: &Words) -> String {
        let (off, bend) = (Shown::new(facts.measured, 1, "°"), self.bend);
        if self.is_pinned {
            format!("Bends, but the seam is pinned {off} from the outside of bend {bend}.")
        } else {
            format!("Bends as drawn; the seam comes within {off} of the outside of bend {bend}.")
        }
    }

    fn cures(&self, _: &Facts, subject: &Subject) -> Option<Cures> {
        if !self.is_pinned {
            return None;
        }
        let solved = subject.solved;
        let (_, away) = nearest(solved, solved.seam.as_ref()?)?;
        let best = best_seam(subject.part, &solved.rows_in_order());
        let (_, best_away) = nearest(solved, &best)?;
        let leave = Remedy::LeaveSeam { start: best.start, bend: subject.number(0) };
        (best_away.radians() > away.radians() + SAME_RAD).then(|| leave.into())
    }
}
