//! `blank-too-long`: the blank does not fit over the mandrel.

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{Cures, Remedy};
use super::ends::Leg;
use super::finding::{Facts, Place, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words};
use crate::model::nearly::SAME_MM;
use crate::forming::ground::Ground;
use crate::SolvedBend;
use elbowroom_geometry::units::Shown;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "blank-too-long",
    title: "Blank too long",
    severity: "Always a stop.",
    summary: "The blank is longer than the machine takes over its mandrel.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Lengths("Blank", "Longest the machine takes"),
    run,
};

const MANUAL: &str = "\
What it looks for
  A blank, trims included, that is longer than the machine takes.

Why it matters
  The blank is pushed over the mandrel rod to its end before the first bend. A longer one does not go on,
  or sticks out behind the machine where nothing guards it.

How it is measured
  The blank that the bend program asks for: trims, what is left of the straights when the bends have sprung
  back, and what each bend takes up. Where a bend has no die set, all straights, all arcs on the centreline
  and the trims as drawn. Stretch that was not measured only makes the true blank shorter.

Limit and its source
  The longest blank of the machine in the shop file. The machine's handbook has it; the default shop's
  figure is common practice, no source.

Example
  A system of 7120 mm on a machine that takes 6000 mm has to be cut in two; a blank of 12 m on one that takes
  4 m into at least three pieces.

Cure and its risk
  Take off extra stock that nothing asks for. Else cut the part at straights, into as many pieces as are
  said at the least, and weld: each cut is one more weld, and a joint in the gas flow.

Caution
  A long blank whips when it is fed and turned. Rope off its reach. Follow the machine maker's rules and
  local law.
";

/// A blank that is too long: its length is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence;

/// Into how many pieces the part has to be cut at the least. Their own trims are not counted.
fn pieces(blank_mm: f64, limit_mm: f64) -> String {
    let pieces = ((blank_mm - SAME_MM) / limit_mm).ceil();
    if !pieces.is_finite() || pieces < 2.0 {
        "No piece of it fits.".into()
    } else if pieces == 2.0 {
        "Cut the part in two at a straight and weld it.".into()
    } else {
        format!("Cut the part at straights into at least {pieces:.0} pieces and weld them.")
    }
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    let limit_mm = subject.shop.machine.longest_blank.mm();
    let blank_mm = solved.blank_length_mm;
    // Tube that is not bent goes over no mandrel.
    if blank_mm <= limit_mm + SAME_MM || !solved.bends.iter().any(SolvedBend::is_bent) {
        return;
    }
    let facts = Facts {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place: Place { from_mm: 0.0, to_mm: solved.developed_length_mm, bend: None, straight: None },
        also: Vec::new(),
        measured: blank_mm,
        limit: limit_mm,
        unit: Unit::Millimetre,
        measured_basis: solved.blank_basis(),
        limit_basis: Some(subject.shop.machine.basis.into()),
    };
    tell(facts, Evidence);
}

/// By how much it is too long: as unsure as the less sure of the two.
fn over(facts: &Facts, words: &Words) -> Shown {
    let over = words.length(facts.measured - facts.limit).resting(facts.limit_basis);
    over.resting(facts.measured_basis.filter(|ground: &Ground| ground.unsure()))
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        format!(
            "The blank is {}, and the machine takes {}: {} too long. {}",
            words.length(facts.measured).resting(facts.measured_basis),
            words.length(facts.limit).resting(facts.limit_basis),
            over(facts, words),
            pieces(facts.measured, facts.limit)
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        format!("Cannot be bent as drawn: the blank is {} longer than the machine takes.", over(facts, words))
    }

    fn cures(&self, _: &Facts, subject: &Subject) -> Option<Cures> {
        let spare = Leg::both(subject)?.map(|leg| {
            let needed_mm = leg.needs.hold_mm.max(leg.needs.square_mm).max(0.0);
            let take_off = Remedy::TakeStock { end: leg.end, saves_mm: leg.stock_mm - needed_mm };
            (leg.stock_mm > needed_mm + SAME_MM).then_some(take_off)
        });
        Some(spare.into_iter().fold(Cures::NONE, Cures::and))
    }
}
