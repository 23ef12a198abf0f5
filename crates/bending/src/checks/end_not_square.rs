//! `end-not-square`: a bend so near to a free end that the end face does not stay square.

use super::ends::Leg;
use super::words::{Marked, with_cures};
use super::{About, Check, Subject};
use crate::forming::ground::Ground;
use crate::{Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "end-not-square",
    summary: "A bend is so near to an end that the end face does not stay square: extra stock and a cut.",
    manual: MANUAL,
    about: About::Stock,
    run,
};

const MANUAL: &str = "\
What it looks for
  A free end that lies nearer to a bend than the tube needs to stay round and square there.

Why it matters
  The outside of a bend draws out and the inside gathers. Near an end nothing holds them back, so the end
  face comes out slanted and oval, and does not fit what it is to be welded to.

How it is measured
  The straight between the end of the drawing and the tangent point of the nearest bend.

Limit and its source
  A multiple of the outside diameter in the shop file (one to start with). Common practice, no source.
  The note goes once as much extra stock is put on the part.

Example
  50.8 mm tube with a tail of 30 mm: 20.8 mm of extra stock, cut off after bending.

Cure and its risk
  Put the stock on and cut the end square after bending.

Caution
  Deburr the cut, and hold a bent part in shaped jaws for sawing: it cannot be held flat, and it rolls.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let diameters = subject.shop.machine.square_end_diameters;
    let ground = Ground::from(subject.shop.machine.basis);
    let square_mm = diameters * subject.part.tube.od.mm();
    for leg in Leg::both(subject).into_iter().flatten() {
        let wanted_mm = leg.needs.square_mm;
        if !leg.lacks(wanted_mm) {
            continue;
        }
        let cures = vec![leg.add_stock(wanted_mm)];
        findings.push(Finding {
            fault: CHECK.fault,
            severity: Severity::Note,
            place: leg.place,
            also: Vec::new(),
            measured: leg.length_mm,
            limit: square_mm,
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: Some(ground),
            text: with_cures(format_args!(
                "Bend {}: the {} is {} away{}, and nearer than {} its face does not stay square: {} of extra stock, cut \
                 off after bending {}.",
                leg.number,
                leg.name,
                subject.length(leg.length_mm),
                leg.less(),
                subject.length(square_mm).resting_on(ground),
                leg.stock(wanted_mm, Some(ground)),
                leg.cut()), &cures),
            verdict: leg.verdict(leg.stock(wanted_mm, Some(ground))),
            cures,
        });
    }
}
