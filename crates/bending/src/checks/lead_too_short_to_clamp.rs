//! `lead-too-short-to-clamp`: the lead leg is shorter than the clamp of the first bend.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::cures::shorter_clamp;
use super::ends::{Leg, Stock};
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::words::Words;
use crate::model::nearly::SAME_MM;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "lead-too-short-to-clamp",
    title: "Leg too short to clamp",
    severity: "Always a note: it costs stock and a cut.",
    summary: "The leg that is bent first is shorter than the clamp: extra stock there, cut off after bending.",
    manual: MANUAL,
    about: About::Stock,
    drawing: Drawing::Clamp,
    run,
};

const MANUAL: &str = "\
What it looks for
  A first leg that is shorter than the clamp of the first bend.

Why it matters
  The clamp of the first bend grips the leg at the end that is bent first. There is no arc to run into, so
  the blank simply gets
  longer there, and the rest is cut off after bending. That is no fault: it is stock and labour, and the
  cut comes after bending, where it is harder to do square.

How it is measured
  The clamp's length less that leg, from the end of the drawing to the first tangent point.

Limit and its source
  The length of the clamp. Common practice, no source. The note goes once as much extra stock is put on
  the part.

Example
  A first leg of 85 mm and a 125 mm clamp: 40 mm of extra stock.

Cure and its risk
  Put the stock on, or take a shorter clamp that has proved to hold the bend. Swapping the ends makes the
  other leg the first.

Caution
  Deburr the cut, and hold a bent part in shaped jaws for sawing: it cannot be held flat, and it rolls.
";

/// Extra stock for the clamp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence(Stock);

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let Some([lead, _]) = Leg::both(subject) else { return };
    let wanted_mm = lead.needs.hold_mm;
    let Some(clamp) = &subject.solved.bends[lead.bend].clamp else { return };
    if !lead.lacks(wanted_mm) {
        return;
    }
    let facts = Facts {
        fault: CHECK.fault,
        severity: Severity::Note,
        place: lead.place,
        also: Vec::new(),
        measured: lead.length_mm,
        limit: clamp.length_mm,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
    };
    tell(facts, Evidence(lead.stock(subject, wanted_mm)));
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let stock = &self.0;
        format!(
            "Bend {}: {} is {}{}, and the clamp needs {}: {}.",
            stock.bend,
            stock.end.leg(),
            words.length(facts.measured),
            stock.less(words),
            words.length(facts.limit),
            stock.asked(facts, words)
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        self.0.said_first(facts, words)
    }

    fn cures(&self, _: &Facts, subject: &Subject) -> Option<Cures> {
        let [lead, _] = Leg::both(subject)?;
        let clamp = subject.solved.bends[lead.bend].clamp.as_ref()?;
        let shorter = shorter_clamp(subject, lead.bend, clamp, |tried| {
            tried.length_mm() <= lead.length_mm - lead.needs.takes_mm + lead.stock_mm + SAME_MM
        });
        Some(Cures::from(self.0.add(subject)).and(shorter))
    }
}
