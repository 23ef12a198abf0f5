//! `springback-takes-straight`: what no longer fits when the released bends have grown.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{Cures, Remedy};
use super::cures::lengthen;
use super::ends::Leg;
use super::finding::{Facts, Place, Severity, Unit};
use super::name::{Ahead, TubeEnd};
use super::subject::Subject;
use super::words::{Marked, Words, degrees};
use crate::model::nearly::SAME_MM;
use crate::forming::ground::Ground;
use crate::layout::released::ReleasedTube;
use crate::{ClampOnTube, Released, SolvedBend};

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "springback-takes-straight",
    title: "Springback takes the straight",
    severity: "A stop where the clamp no longer closes, a caution where it leaves a mark; each a step milder while springback is theory.",
    summary: "A straight that is long enough as drawn is too short once the bends beside it have sprung back.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Lengths("Straight when sprung back", "What the clamp needs"),
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
  less straight will do than on the drawn arcs. A first or last leg that gets too short to hold is stock,
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

/// What springback takes. What is left is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// Of which straight.
    of: Of,
    /// How much of it, mm.
    takes_mm: f64,
    /// The angle that the bend has to be set to, radians.
    set_angle_rad: f64,
}

/// The straight that it takes from.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Of {
    /// The one ahead of a bend, with what is no longer to be had on it.
    Ahead(Ahead, Lost),
    /// The leg behind the last bend, by its number.
    Tail(u32, TubeEnd),
}

/// What is no longer to be had.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Lost {
    /// The straight itself. What is cured has to hold a clamp as well, and needs so much for it, mm.
    Everything(f64),
    /// What a clamp needs to close.
    Hold(Clamped),
    /// What a clamp needs to leave no mark.
    Polish(Clamped),
}

/// A clamp that needs more straight than is left.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Clamped {
    /// Its length, mm.
    clamp_mm: f64,
    /// What it needs, mm.
    needs_mm: f64,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    let mut released_tube = None;
    for (index, made) in solved.bends.iter().enumerate() {
        let Some(released) = made.formed.as_ref().and_then(|formed| formed.released) else { continue };
        let (drawn_mm, left_mm) = (made.straight_ahead_mm, released.straight_ahead_mm);
        let lost = if drawn_mm >= -SAME_MM && left_mm < -SAME_MM {
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
                Lost::on(made, &released, clamp, &tube.lay(index, made, clamp, die))
            } else {
                None
            }
        } else {
            None
        };
        if let Some(lost) = lost {
            tell(facts(subject, index, &released, lost), Evidence {
                of: Of::Ahead(subject.ahead(index), lost),
                takes_mm: drawn_mm - left_mm,
                set_angle_rad: released.set_angle_rad,
            });
        }
    }
    past_the_tail(subject, tell);
}

impl Lost {
    /// What a clamp that does as drawn lacks on the released tube, and what it needs there, mm.
    fn on(
        made: &SolvedBend,
        released: &Released,
        as_drawn: &ClampOnTube,
        laid: &ClampOnTube,
    ) -> Option<Self> {
        let left_mm = released.straight_ahead_mm;
        let lacks = |drawn_needs_mm: f64, needs_mm: f64| {
            made.straight_ahead_mm >= drawn_needs_mm - SAME_MM && left_mm < needs_mm - SAME_MM
        };
        let clamped = |needs_mm: f64| Clamped { clamp_mm: as_drawn.length_mm, needs_mm };
        let (holds_mm, free_mm) = (laid.needs_straight_mm, laid.mark_free_straight_mm);
        if lacks(as_drawn.needs_straight_mm, holds_mm) {
            Some(Self::Hold(clamped(holds_mm)))
        } else if lacks(as_drawn.mark_free_straight_mm, free_mm) {
            Some(Self::Polish(clamped(free_mm)))
        } else {
            None
        }
    }
}

fn facts(subject: &Subject, index: usize, released: &Released, lost: Lost) -> Facts {
    let made = &subject.solved.bends[index];
    let basis = || subject.die_of(made).map(|die| die.basis.into());
    let (worst, limit, limit_basis) = match lost {
        Lost::Everything(_) => (Severity::Stop, 0.0, None),
        Lost::Hold(Clamped { needs_mm, .. }) => (Severity::Stop, needs_mm, basis()),
        Lost::Polish(Clamped { needs_mm, .. }) => (Severity::Caution, needs_mm, basis()),
    };
    Facts {
        fault: CHECK.fault,
        severity: worst.by_springback(released.basis),
        place: subject.place_ahead(index),
        also: Vec::new(),
        measured: released.straight_ahead_mm,
        limit,
        unit: Unit::Millimetre,
        measured_basis: Some(released.basis.into()),
        limit_basis,
    }
}

/// The last bend, grown past the tail end.
fn past_the_tail(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    let Some(last) = solved.in_order().next_back() else { return };
    let Some(released) = solved.bends[last].formed.as_ref().and_then(|formed| formed.released) else { return };
    let Some([_, tail]) = Leg::both(subject) else { return };
    let left_mm = tail.length_mm - released.takes_mm;
    if tail.length_mm < -SAME_MM || left_mm >= -SAME_MM {
        return;
    }
    let straight = tail.straight(solved);
    let facts = Facts {
        fault: CHECK.fault,
        severity: Severity::Stop.by_springback(released.basis),
        place: Place { straight: Some(straight), ..tail.place },
        also: Vec::new(),
        measured: left_mm,
        limit: 0.0,
        unit: Unit::Millimetre,
        measured_basis: Some(released.basis.into()),
        limit_basis: None,
    };
    tell(facts, Evidence {
        of: Of::Tail(subject.number(last), tail.end),
        takes_mm: released.takes_mm,
        set_angle_rad: released.set_angle_rad,
    });
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let ground = facts.measured_basis;
        let takes = words.length(self.takes_mm).resting(ground);
        let set = format!("set {}, {}", degrees(self.set_angle_rad).resting(ground), ground.map_or("", Ground::said));
        match self.of {
            Of::Ahead(ahead, lost) => {
                let needed = words.at_least(facts.limit).resting(facts.limit_basis);
                let needs = match lost {
                    Lost::Everything(_) => String::new(),
                    Lost::Hold(Clamped { clamp_mm, .. }) => {
                        format!(", and the {} clamp needs {needed} here", words.length(clamp_mm))
                    }
                    Lost::Polish(Clamped { clamp_mm, .. }) => {
                        format!(", and the {} clamp leaves no mark from {needed} on", words.length(clamp_mm))
                    }
                };
                format!(
                    "Bend {}: springback takes {takes} of {}, and {} are left{needs} ({set}).",
                    ahead.bend,
                    ahead.straight(),
                    words.length(facts.measured).resting(ground)
                )
            }
            Of::Tail(bend, end) => format!(
                "Bend {bend}: springback takes {takes} of {}, and it runs past the end by {} ({set}).",
                end.leg(),
                words.length(-facts.measured).resting(ground)
            ),
        }
    }

    fn verdict(&self, facts: &Facts, _: &Words) -> String {
        let what = match self.of {
            Of::Ahead(ahead, lost) => {
                let short = match lost {
                    Lost::Everything(_) => "leaves no straight",
                    Lost::Hold(_) => "leaves too little straight for the clamp",
                    Lost::Polish(_) => "lets the clamp leave a mark",
                };
                format!("springback {short} {}", ahead.place())
            }
            Of::Tail(_, end) => format!("springback leaves nothing of {}", end.leg()),
        };
        match facts.severity {
            Severity::Stop => format!("Cannot be bent as drawn: {what}."),
            Severity::Caution => format!("Bends, but {what}."),
            Severity::Note => format!("Bends as drawn; {what}."),
        }
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let solved = subject.solved;
        match self.of {
            Of::Ahead(_, lost) => {
                let index = facts.place.bend?;
                let (Lost::Everything(needs_mm)
                | Lost::Hold(Clamped { needs_mm, .. })
                | Lost::Polish(Clamped { needs_mm, .. })) = lost;
                let drawn_mm = solved.bends[index].straight_ahead_mm;
                Some(lengthen(subject, index, needs_mm + drawn_mm - facts.measured).into())
            }
            Of::Tail(_, end) => {
                let straight = facts.place.straight?;
                let to_mm = subject.round_mm(solved.straights_mm[straight] - facts.measured);
                Some(Remedy::LengthenLeg { straight: solved.nodes.straight(straight), end, to_mm }.into())
            }
        }
    }
}
