//! `tail-too-short-to-hold`: the tail is shorter than what the machine must hold behind the last bend.

use super::ends::Leg;
use super::words::{Marked, with_cures};
use super::{About, Check, Subject};
use crate::forming::ground::Ground;
use crate::{Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "tail-too-short-to-hold",
    summary: "The tail is shorter than the machine must hold: extra stock there, cut off after bending.",
    manual: MANUAL,
    about: About::Stock,
    run,
};

const MANUAL: &str = "\
What it looks for
  A straight behind the last bend that is shorter than what pressure die, mandrel and chuck must hold.

Why it matters
  While the last bend is made the pressure die backs the tube up, the mandrel stands in it, and the chuck
  still holds its end. With too little tube there they collide or let go. The blank gets longer, and the
  rest is cut off after bending: stock and labour, no fault.

How it is measured
  The tail that the machine must hold less the straight from the last tangent point to the end of the
  drawing.

Limit and its source
  A figure of the machine in the shop file. Makers ask for two to four outside diameters at each end
  (ttb.com, tube bending design, part 2 of 9); the default shop's figure is common practice, no source.
  The note goes once as much extra stock is put on the part.

Example
  A tail of 100 mm on a machine that must hold 150 mm: 50 mm of extra stock.

Cure and its risk
  Put the stock on. Swapping the ends makes the other leg the tail.

Caution
  Deburr the cut, and hold a bent part in shaped jaws for sawing: it cannot be held flat, and it rolls.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let Some([_, tail]) = Leg::both(subject) else { return };
    let wanted_mm = tail.needs.hold_mm;
    if !tail.lacks(wanted_mm) {
        return;
    }
    let hold_mm = subject.shop.machine.tail_hold.mm();
    let ground = Ground::from(subject.shop.machine.basis);
    let behind = if subject.is_from_finish() { tail.leg } else { "the tail behind it" };
    let cures = vec![tail.add_stock(wanted_mm)];
    findings.push(Finding {
        fault: CHECK.fault,
        severity: Severity::Note,
        place: tail.place,
        also: Vec::new(),
        measured: tail.length_mm,
        limit: hold_mm,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: Some(ground),
        text: with_cures(
            format_args!(
                "Bend {}: {} is {}{}, and the machine must hold {}: {} of extra stock, cut off after bending \
             {}.",
                tail.number,
                behind,
                subject.length(tail.length_mm),
                tail.less(),
                subject.length(hold_mm).resting_on(ground),
                tail.stock(wanted_mm, Some(ground)),
                tail.cut()
            ),
            &cures,
        ),
        verdict: tail.verdict(tail.stock(wanted_mm, Some(ground))),
        cures,
    });
}
