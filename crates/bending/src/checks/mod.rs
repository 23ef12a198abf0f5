//! The checks, one file each, and the registry that lists them.

use crate::{Fault, Finding, Part, Shop, Solved};

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
pub static REGISTRY: &[Check] = &[];
