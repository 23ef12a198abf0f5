//! `tail-too-short-to-hold`: the tail is shorter than what the machine must hold behind the last bend.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::ends::{Leg, Stock};
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words};

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "tail-too-short-to-hold",
    title: "Leg too short to hold",
    severity: "Always a note: it costs stock and a cut.",
    summary: "The leg that is bent last is shorter than the machine must hold: extra stock there, cut off after bending.",
    manual: MANUAL,
    about: About::Stock,
    drawing: Drawing::Lengths("Leg behind the last bend", "What the machine holds"),
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
  What the machine must hold less the straight from the last tangent point to the end of the
  drawing.

Limit and its source
  A figure of the machine in the shop file. Makers ask for two to four outside diameters at each end
  (ttb.com, tube bending design, part 2 of 9); the default shop's figure is common practice, no source.
  The note goes once as much extra stock is put on the part.

Example
  A last leg of 100 mm on a machine that must hold 150 mm: 50 mm of extra stock.

Cure and its risk
  Put the stock on. Bending from the other end makes the other leg the last.

Caution
  Deburr the cut, and hold a bent part in shaped jaws for sawing: it cannot be held flat, and it rolls.
";

/// Extra stock for the machine to hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence(Stock);

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let Some([_, tail]) = Leg::both(subject) else { return };
    let wanted_mm = tail.needs.hold_mm;
    if !tail.lacks(wanted_mm) {
        return;
    }
    let machine = &subject.shop.machine;
    let facts = Facts {
        fault: CHECK.fault,
        severity: Severity::Note,
        place: tail.place,
        also: Vec::new(),
        measured: tail.length_mm,
        limit: machine.tail_hold.mm(),
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: Some(machine.basis.into()),
    };
    tell(facts, Evidence(tail.stock(subject, wanted_mm)));
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let stock = &self.0;
        let behind = stock.end.leg();
        format!(
            "Bend {}: {behind} is {}{}, and the machine must hold {}: {}.",
            stock.bend,
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
