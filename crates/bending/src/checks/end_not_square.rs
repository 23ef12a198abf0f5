//! `end-not-square`: a bend so near to a free end that the end face does not stay square.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::ends::{Leg, Stock};
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words};

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "end-not-square",
    title: "End not square",
    severity: "Always a note: it costs stock and a cut.",
    summary: "A bend is so near to an end that the end face does not stay square: extra stock and a cut.",
    manual: MANUAL,
    about: About::Stock,
    drawing: Drawing::Lengths("Straight at the end", "A square end needs"),
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
  50.8 mm tube with a last leg of 30 mm: 20.8 mm of extra stock, cut off after bending.

Cure and its risk
  Put the stock on and cut the end square after bending.

Caution
  Deburr the cut, and hold a bent part in shaped jaws for sawing: it cannot be held flat, and it rolls.
";

/// Extra stock for a square face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence(Stock);

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let machine = &subject.shop.machine;
    for leg in Leg::both(subject).into_iter().flatten() {
        let wanted_mm = leg.needs.square_mm;
        if !leg.lacks(wanted_mm) {
            continue;
        }
        let facts = Facts {
            fault: CHECK.fault,
            severity: Severity::Note,
            place: leg.place,
            also: Vec::new(),
            measured: leg.length_mm,
            limit: machine.square_end_diameters * subject.part.tube.od.mm(),
            unit: Unit::Millimetre,
            measured_basis: None,
            limit_basis: Some(machine.basis.into()),
        };
        tell(facts, Evidence(leg.stock(subject, wanted_mm)));
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let stock = &self.0;
        format!(
            "Bend {}: the {} is {} away{}, and nearer than {} its face does not stay square: {}.",
            stock.bend,
            stock.end.name(),
            words.length(facts.measured),
            stock.less(words),
            words.length(facts.limit).resting(facts.limit_basis),
            stock.asked(facts, words)
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        self.0.said_first(facts, words)
    }

    fn cures(&self, _: &Facts, subject: &Subject) -> Option<Cures> {
        Some(self.0.add(subject).into())
    }
}
