//! `ground-too-near`: the tube hangs lower over the ground than it should run.

use std::sync::Arc;

use super::check::{About, Check, Drawing, Said, Tell};
use super::finding::{Facts, Severity};
use super::nearby::{facts, said, severity};
use super::subject::Subject;
use super::words::Words;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "ground-too-near",
    title: "Ground too near",
    severity: "A stop below a height that you have laid down; else a caution, since the law differs from place to place.",
    summary: "The tube hangs lower over the ground than an unladen car should run.",
    manual: MANUAL,
    about: About::Around,
    drawing: Drawing::Gap,
    run,
};

const MANUAL: &str = "\
What it looks for
  A place at which the tube's underside is nearer to the ground than the running clearance.

Why it matters
  What hangs lowest meets speed humps, kerbs and stones first, and an exhaust that is torn off takes its
  hangers along.

How it is measured
  The least height of the tube's outside over an obstacle of the kind ground: a plane that is drawn where the
  ground is beneath the unladen car, or a mesh of it.

Limit and its source
  100 mm unladen: the running clearance of the Australian ADR 43/04, clause 6.6. Between the axles the
  same rule asks for 33.33 mm a metre of their distance at the middle, 90 mm at 2.7 m (clause 6.4): lay that
  down for the ground where it is more. Other places have other rules.

Example
  The sump sweep of a low car hangs 84 mm over the ground: 16 mm less than that rule wants.

Cure and its risk
  Raise the corner, or take a smaller or an oval tube there. Laden, on worn springs and in a bump the car comes
  lower than it is drawn.

Caution
  Local vehicle law and a qualified fitter decide how low a car may run.
";

/// The ground that is too near.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    to: Arc<str>,
    at_mm: f64,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    for clearance in subject.around.iter().filter(|clearance| clearance.kind.is_ground()) {
        if let (Ok(gap), Some((wanted_mm, basis))) = (&clearance.measured, clearance.missed()) {
            let facts = facts(subject, CHECK.fault, severity(basis, false), gap, (wanted_mm, basis));
            tell(facts, Evidence { to: Arc::clone(&clearance.to), at_mm: gap.at_mm });
        }
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let [least, wanted] = said(facts, words);
        let (to, at) = (&self.to, words.length(self.at_mm));
        format!("The tube hangs {least} over \u{201c}{to}\u{201d} at {at} along the tube; {wanted} are wanted unladen.")
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let [least, wanted] = said(facts, words);
        let to = &self.to;
        match facts.severity {
            Severity::Stop => {
                format!("Must not run as drawn: {least} over \u{201c}{to}\u{201d}, where {wanted} have to be kept.")
            }
            _ => format!("Bends, but hangs {least} over \u{201c}{to}\u{201d}, where {wanted} are wanted."),
        }
    }
}
