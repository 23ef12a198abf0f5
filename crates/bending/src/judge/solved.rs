//! A part solved: laid out, with everything that the checks find.

use std::ops::Deref;

use crate::checks::{About, REGISTRY, Subject};
use crate::layout::around::Clearance;
use crate::layout::lay_out;
use crate::{Finding, LaidOut, Part, Severity, Shop};

/// A part solved against a shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    laid_out: LaidOut,
    /// Everything the checks found, in their total order.
    pub findings: Vec<Finding>,
    /// How near the tube comes to what stands around it, as far as [`Solved::beside`] was told.
    pub clearances: Vec<Clearance>,
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

    /// The same part, solved against this shop, beside what stands around it: with what the checks find of these
    /// clearances, in place of those it was beside before.
    #[must_use]
    pub fn beside(mut self, part: &Part, shop: &Shop, clearances: Vec<Clearance>) -> Self {
        self.findings.retain(|finding| !finding.is_of_surroundings());
        let subject = Subject { part, shop, solved: &self.laid_out, around: &clearances };
        for check in REGISTRY.iter().filter(|check| check.about == About::Around) {
            (check.run)(&subject, &mut self.findings);
        }
        self.clearances = clearances;
        self.in_order()
    }

    /// Puts the findings in order. What the verdict speaks of stands first, so that sentence, list and scene begin with
    /// the same.
    fn in_order(mut self) -> Self {
        put_in_order(&mut self.findings);
        if let Some(first) = self.first_in_the_way() {
            self.findings[..=first].rotate_right(1);
        }
        self
    }
}

/// Solves a part against a shop, bent from the end and to the side that it holds, and runs every check. Total and
/// deterministic.
pub fn solve(part: &Part, shop: &Shop) -> Solved {
    let laid_out = lay_out(part, shop);
    let subject = Subject { part, shop, solved: &laid_out, around: &[] };
    let mut findings = Vec::new();
    for check in REGISTRY {
        (check.run)(&subject, &mut findings);
    }
    Solved { laid_out, findings, clearances: Vec::new() }.in_order()
}

/// Puts findings into their total order. A finding is large, so that their places are sorted and each of them moves once.
fn put_in_order(findings: &mut [Finding]) {
    let mut places: Vec<usize> = (0..findings.len()).collect();
    places.sort_unstable_by(|&a, &b| findings[a].order(&findings[b]).then(a.cmp(&b)));
    for first in 0..places.len() {
        // What belongs at each place of a round of exchanges comes from the next place of that round.
        let mut at = first;
        while places[at] != first && places[at] != at {
            let from = std::mem::replace(&mut places[at], at);
            findings.swap(at, from);
            at = from;
        }
        places[at] = at;
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use proptest::prelude::*;

    use super::*;
    use crate::specimen;

    proptest! {
        #[test]
        fn findings_come_in_their_order_whatever_it_was(places in prop::collection::vec(0..30u8, 0..40)) {
            let part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0), specimen::row(20.0, 0.0, 90.0)], 300.0);
            let like = solve(&part.unwrap(), &specimen::shop()).findings.remove(0);
            let at = |place: &u8| like.clone().measuring(f64::from(*place));
            let mut findings: Vec<Finding> = places.iter().map(at).collect();
            put_in_order(&mut findings);
            let mut wanted = places;
            wanted.sort_unstable();
            let found: Vec<f64> = findings.iter().map(|finding| finding.measured).collect();
            prop_assert_eq!(found, wanted.into_iter().map(f64::from).collect::<Vec<_>>());
        }
    }
}
