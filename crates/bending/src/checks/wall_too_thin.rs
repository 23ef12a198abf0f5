//! `wall-too-thin`: the outside of a bend thins beyond what the shop allows.

use elbowroom_geometry::Length;

use super::cures::larger_radius;
use super::words::{Marked, percent, with_cures};
use super::{About, Check, SAME_SHARE, Subject};
use crate::forming::ground::Ground;
use crate::{Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "wall-too-thin",
    summary: "The wall at the outside of a bend is thinner than the shop allows.",
    manual: MANUAL,
    about: About::Rest,
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

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let limits = &subject.shop.limits;
    let (rule, least) = (limits.wall_rule, limits.least_wall);
    let (od, wall) = (subject.part.tube.od, subject.part.tube.wall);
    for (index, made) in subject.solved.bends.iter().enumerate() {
        let Some(formed) = &made.formed else { continue };
        let figure = formed.wall(rule);
        let kept = 1.0 - figure.thinning;
        if kept >= least - SAME_SHARE {
            continue;
        }
        let suffices = |clr: Length| {
            let there = rule.figure(od, wall, clr);
            there.is_some_and(|there| 1.0 - there.thinning >= least - SAME_SHARE)
        };
        let cures: Vec<_> = larger_radius(subject, index, suffices).into_iter().collect();
        let (share, asked) = (percent(kept).resting_on(rule), percent(least).resting_on(limits.basis));
        findings.push(Finding {
            fault: CHECK.fault,
            severity: Severity::Caution,
            place: subject.arc_place(index),
            also: Vec::new(),
            measured: figure.outside.mm(),
            limit: wall.mm() * least,
            unit: Unit::Millimetre,
            measured_basis: Some(rule.into()),
            limit_basis: Some(limits.basis.into()),
            text: with_cures(
                format_args!(
                    "Bend {}: by the rule {} the outside wall keeps {}, {share} of the {} before bending; {} are \
                 wanted, {asked} ({}).",
                    subject.number(index),
                    rule.name(),
                    subject.part.units.finely(figure.outside.mm()).resting_on(rule),
                    subject.part.units.finely(wall.mm()),
                    subject.part.units.finely(wall.mm() * least).resting_on(limits.basis),
                    Ground::from(limits.basis).said()
                ),
                &cures,
            ),
            verdict: format!(
                "Bends, but the outside wall of {} keeps only {share} by the rule {}; {asked} are wanted.",
                subject.bend(index),
                rule.name()
            ),
            cures,
        });
    }
}
