//! `wall-too-thin`: the outside of a bend thins beyond what the shop allows.

use elbowroom_geometry::Length;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::cures::larger_radius;
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words, percent};
use crate::model::nearly::SAME_SHARE;
use crate::forming::ground::Ground;
use crate::forming::wall::WallRule;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "wall-too-thin",
    title: "Thin wall",
    severity: "Always a caution.",
    summary: "The wall at the outside of a bend is thinner than the shop allows.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Section,
    run,
};

const MANUAL: &str = "\
What it looks for
  A bend whose outside wall, by the rule that the shop goes by, keeps less of the wall before bending
  than the shop wants.

Why it matters
  The outside of a bend is drawn out and thins, the inside gathers and thickens. A wall that has become
  too thin cracks in the bend, or later from heat and shaking, and leaves little to weld to.

How it is measured
  By one rule, named in the finding. The rules disagree: TEMA RCB-2.31 leaves t/(1 + D/4R), ASME B31.1
  table 102.4.5 asks for 6 to 25 % more wall before bending, the tool-makers' radius ratio leaves t R/Ro
  and is an upper bound of the thinning, and a text-book tube that is free to give round the hoop keeps
  t sqrt(R/Ro). The forming sheet shows them all. Each percentage is of the wall before bending.

Limit and its source
  The rule and the share that must be left are in the shop file under limits. The radius ratio and three
  quarters to start with: common practice, no source. What the pipe must stand decides what you need. It
  is a caution, because every rule is an estimate: cut a trial bend open and measure.

Example
  50.8 x 1.5 mm on a radius of 50.8 mm: the radius ratio leaves two thirds, 1.00 mm, where three quarters
  would be 1.13 mm. On 76.2 mm it leaves just three quarters.

Cure and its risk
  A larger radius thins less, and takes more room. A thicker tube keeps the same share of more wall.

Caution
  A thin wall on a hot pipe can burn through and let out exhaust gas, which is poisonous. Where a code
  lays down a wall, that code and a qualified person decide, not this estimate.
";

/// An outside wall that is too thin. The wall is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// The bend, by its number.
    bend: u32,
    /// The rule that says so.
    rule: WallRule,
    /// What is left of the wall before bending, as a share.
    kept: f64,
    /// What is wanted, as a share.
    least: f64,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let limits = &subject.shop.limits;
    let (rule, least) = (limits.wall_rule, limits.least_wall);
    let wall = subject.part.tube.wall;
    for (index, made) in subject.solved.bends.iter().enumerate() {
        let Some(formed) = &made.formed else { continue };
        let Some(figure) = formed.wall(rule) else { continue };
        let kept = 1.0 - figure.thinning;
        if kept >= least - SAME_SHARE {
            continue;
        }
        let facts = Facts {
            fault: CHECK.fault,
            severity: Severity::Caution,
            place: subject.arc_place(index),
            also: Vec::new(),
            measured: figure.outside.mm(),
            limit: wall.mm() * least,
            unit: Unit::Millimetre,
            measured_basis: Some(rule.into()),
            limit_basis: Some(limits.basis.into()),
        };
        tell(facts, Evidence { bend: subject.number(index), rule, kept, least });
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let wall = |wall_mm: f64| words.part.units.finely(wall_mm);
        format!(
            "Bend {}: by the rule {} the outside wall keeps {}, {} of the {} before bending; {} are wanted, {} ({}).",
            self.bend,
            self.rule.name(),
            wall(facts.measured).resting(facts.measured_basis),
            percent(self.kept).resting(facts.measured_basis),
            wall(words.part.tube.wall.mm()),
            wall(facts.limit).resting(facts.limit_basis),
            percent(self.least).resting(facts.limit_basis),
            facts.limit_basis.map_or("", Ground::said)
        )
    }

    fn verdict(&self, facts: &Facts, _: &Words) -> String {
        format!(
            "Bends, but the outside wall of bend {} keeps only {} by the rule {}; {} are wanted.",
            self.bend,
            percent(self.kept).resting(facts.measured_basis),
            self.rule.name(),
            percent(self.least).resting(facts.limit_basis)
        )
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let tube = &subject.part.tube;
        let suffices = |clr: Length| {
            let there = self.rule.figure(tube.od, tube.wall, clr);
            there.is_some_and(|there| 1.0 - there.thinning >= self.least - SAME_SHARE)
        };
        larger_radius(subject, facts.place.bend?, suffices).map(Cures::from)
    }
}
