//! The checks, one file each, and the registry that lists them.

mod clamp_across_arc;
mod cures;
mod straight_too_short;
mod words;

use crate::solve::clamp::Seat;
use crate::{DieSet, Fault, Finding, Part, Shop, Solved, SolvedBend};

/// Lengths this near to their limit meet it, mm: a nanometre, far above the rounding of a part of ten
/// metres and far below anything a shop can measure.
pub(crate) const SAME_MM: f64 = 1e-6;

/// What a check looks at: the part, the shop, and the part solved so far (no findings yet).
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// The part as drawn.
    pub part: &'a Part,
    /// The shop it is to be made in.
    pub shop: &'a Shop,
    /// The solution, without findings.
    pub solved: &'a Solved,
}

impl<'a> Subject<'a> {
    /// The die set that bends a bend.
    pub(crate) fn die_of(&self, bend: &SolvedBend) -> Option<&'a DieSet> {
        bend.die.and_then(|die| self.shop.die_sets.get(die))
    }

    /// The last bend before `index` that turns the tube.
    pub(crate) fn bend_before(&self, index: usize) -> Option<usize> {
        self.solved.bends[..index].iter().rposition(SolvedBend::is_bent)
    }

    /// Bend `index` as a seat for clamps other than the chosen one.
    pub(crate) fn seat(&self, index: usize) -> Seat<'a> {
        let bend = &self.solved.bends[index];
        Seat {
            rows: self.solved.form.path.rows(),
            bend: index,
            leads: self.bend_before(index).is_none(),
            straight_mm: bend.straight_ahead_mm,
            starts_at_mm: bend.starts_at_mm,
            lead_trim_mm: self.solved.lead_trim_mm,
        }
    }
}

/// One check: its name, its manual page and what it does.
pub struct Check {
    /// Its name, such as `clamp-across-arc`.
    pub fault: Fault,
    /// One line that says what it looks for.
    pub summary: &'static str,
    /// The manual page, plain text: what it looks for, why it matters, how it is measured, limit and
    /// source, example, cure and its risk.
    pub manual: &'static str,
    /// Adds what it finds.
    pub run: fn(&Subject, &mut Vec<Finding>),
}

/// Every check, in the order of the manual.
pub static REGISTRY: &[Check] = &[straight_too_short::CHECK, clamp_across_arc::CHECK];

/// The check of that name.
pub fn named(fault: &str) -> Option<&'static Check> {
    REGISTRY.iter().find(|check| check.fault == fault)
}
