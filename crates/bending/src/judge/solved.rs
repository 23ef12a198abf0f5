//! A part solved: laid out, with everything that the checks find.

use std::ops::Deref;

use crate::checks::{REGISTRY, Subject};
use crate::layout::lay_out;
use crate::{Finding, LaidOut, Part, Severity, Shop};

/// A part solved against a shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    laid_out: LaidOut,
    /// Everything the checks found, in their total order.
    pub findings: Vec<Finding>,
}

impl Deref for Solved {
    type Target = LaidOut;

    fn deref(&self) -> &LaidOut {
        &self.laid_out
    }
}

impl Solved {
    /// The worst severity found.
    pub fn worst(&self) -> Option<Severity> {
        self.findings.first().map(|finding| finding.severity)
    }
}

/// Solves a part against a shop, bent from the end and to the side that it holds, and runs every check. Total and
/// deterministic.
pub fn solve(part: &Part, shop: &Shop) -> Solved {
    let laid_out = lay_out(part, shop);
    let subject = Subject { part, shop, solved: &laid_out };
    let mut findings = Vec::new();
    for check in REGISTRY {
        (check.run)(&subject, &mut findings);
    }
    findings.sort_unstable_by(|a, b| a.order(b));
    Solved { laid_out, findings }
}
