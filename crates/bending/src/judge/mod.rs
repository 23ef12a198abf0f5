//! The whole judgement: every check on a part that is laid out, the verdict, and what is made of both.

pub mod compare;
pub mod program_sheet;
pub mod program_table;
pub mod requirements;
pub mod setup;
pub(crate) mod verdict;

use crate::checks::{REGISTRY, Subject};
use crate::layout::lay_out;
use crate::{Part, Shop, Solved};

/// Solves a part against a shop, bent from the end and to the side that it holds, and runs every check. Total and
/// deterministic.
pub fn solve(part: &Part, shop: &Shop) -> Solved {
    let mut solved = lay_out(part, shop);
    let subject = Subject { part, shop, solved: &solved };
    let mut findings = Vec::new();
    for check in REGISTRY {
        (check.run)(&subject, &mut findings);
    }
    findings.sort_unstable_by(|a, b| a.order(b));
    solved.findings = findings;
    solved
}
