//! `lead-too-short-to-clamp`: the lead leg is shorter than the clamp of the first bend.

use super::cures::shorter_clamp;
use super::ends::Leg;
use super::words::with_cures;
use super::{About, Check, SAME_MM, Subject};
use crate::{Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "lead-too-short-to-clamp",
    summary: "The lead leg is shorter than the clamp: extra stock there, cut off after bending.",
    manual: MANUAL,
    about: About::Stock,
    run,
};

const MANUAL: &str = "\
What it looks for
  A lead leg that is shorter than the clamp of the first bend.

Why it matters
  The clamp of the first bend grips the lead leg. There is no arc to run into, so the blank simply gets
  longer there, and the rest is cut off after bending. That is no fault: it is stock and labour, and the
  cut comes after bending, where it is harder to do square.

How it is measured
  The clamp's length less the lead leg, from the end of the drawing to the first tangent point.

Limit and its source
  The length of the clamp. Common practice, no source. The note goes once as much extra stock is put on
  the part.

Example
  A lead leg of 85 mm and a 125 mm clamp: 40 mm of extra stock.

Cure and its risk
  Put the stock on, or take a shorter clamp that has proved to hold the bend. Swapping the ends makes the
  other leg the lead.

Caution
  Deburr the cut, and hold a bent part in shaped jaws for sawing: it cannot be held flat, and it rolls.
";

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let Some([lead, _]) = Leg::both(subject) else { return };
    let wanted_mm = lead.needs.hold_mm;
    let Some(clamp) = &subject.solved.bends[lead.bend].clamp else { return };
    if !lead.lacks(wanted_mm) {
        return;
    }
    let mut cures = vec![lead.add_stock(wanted_mm)];
    cures.extend(shorter_clamp(subject, lead.bend, clamp, |laid| {
        laid.length_mm <= lead.length_mm - lead.needs.takes_mm + lead.stock_mm + SAME_MM
    }));
    findings.push(Finding {
        fault: CHECK.fault,
        severity: Severity::Note,
        place: lead.place,
        also: Vec::new(),
        measured: lead.length_mm,
        limit: clamp.length_mm,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
        text: with_cures(
            format_args!(
                "Bend {}: {} is {}{}, and the clamp needs {}: {} of extra stock, cut off after bending {}.",
                lead.number,
                lead.leg,
                subject.length(lead.length_mm),
                lead.less(),
                subject.length(clamp.length_mm),
                lead.stock(wanted_mm, None),
                lead.cut()
            ),
            &cures,
        ),
        verdict: lead.verdict(lead.stock(wanted_mm, None)),
        cures,
    });
}
