//! The whole judgement: every check on a part that is laid out, the verdict, and what is made of both.

pub mod compare;
pub mod program_sheet;
pub mod program_table;
pub mod requirements;
pub mod setup;
mod verdict;

use crate::checks::{REGISTRY, Subject};
use crate::layout::{as_drawn, lay_out};
use crate::{End, Finding, Part, Shop, Solved};

/// Solves a part against a shop, bent from the end and to the side that it holds, and runs every check. Total and
/// deterministic.
pub fn solve(part: &Part, shop: &Shop) -> Solved {
    match part.tooling.from {
        End::Start => solve_bent_from(part, shop, End::Start),
        End::Finish => {
            let turned = part.bent_from(End::Finish);
            as_drawn::solved(solve_bent_from(&turned, shop, End::Finish), part)
        }
    }
}

/// The same for a part that is already in the order of bending: with `from` the tail it is the drawing turned
/// round. Everything counts in the order of bending, and texts name bends, straights and ends as drawn.
pub(crate) fn solve_bent_from(part: &Part, shop: &Shop, from: End) -> Solved {
    let mut solved = lay_out(part, shop);
    let subject = Subject { part, shop, solved: &solved, from };
    let mut findings = Vec::new();
    for check in REGISTRY {
        (check.run)(&subject, &mut findings);
    }
    findings.sort_unstable_by(Finding::order);
    solved.verdict = verdict::of(&subject, &findings);
    solved.findings = findings;
    solved
}
