//! What the checks of what stands around a tube have in common.

use super::finding::{Facts, Fault, Place, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words};
use crate::layout::around::Gap;
use crate::model::ground::Ground;

/// The facts of a finding about a gap: its stretches are marked on the tube, the nearest one first.
pub(super) fn facts(
    subject: &Subject,
    fault: Fault,
    severity: Severity,
    gap: &Gap,
    (limit, limit_basis): (f64, Option<Ground>),
) -> Facts {
    let bends = subject.solved.bends.len();
    let mut places = gap.stretches.iter().map(|stretch| {
        let (is_arc, index) = (stretch.element % 2 == 1, stretch.element / 2);
        Place {
            from_mm: stretch.from_mm,
            to_mm: stretch.to_mm,
            bend: (is_arc && index < bends).then_some(index),
            straight: (!is_arc).then_some(index),
        }
    });
    let place = places.next().unwrap_or(Place { from_mm: gap.at_mm, to_mm: gap.at_mm, bend: None, straight: None });
    Facts {
        fault,
        severity,
        place,
        also: places.collect(),
        measured: gap.least_mm,
        limit,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis,
    }
}

/// How grave it is that a clearance is missed: what a person has laid down has to be kept, and so has what a published
/// rule rejects for fire; the rest is usual.
pub(super) fn severity(basis: Option<Ground>, is_must: bool) -> Severity {
    if is_must || basis == Some(Ground::Shop) { Severity::Stop } else { Severity::Caution }
}

/// The room there is and the room that is wanted, as a sentence says them.
pub(super) fn said(facts: &Facts, words: &Words) -> [String; 2] {
    let wanted = words.length(facts.limit).resting(facts.limit_basis);
    [words.length(facts.measured.max(0.0)).to_string(), wanted.to_string()]
}
