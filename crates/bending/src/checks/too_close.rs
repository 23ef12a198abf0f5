//! `too-close`: less room around the tube than what stands there wants.

use std::sync::Arc;

use super::check::{About, Check, Drawing, Said, Tell};
use super::finding::{Facts, Severity};
use super::nearby::{facts, said, severity};
use super::subject::Subject;
use super::words::Words;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "too-close",
    title: "Too close to something",
    severity: "A stop below a clearance that you have laid down, and below what a published rule rejects beside fuel and \
               brake lines; else a caution.",
    summary: "The tube comes nearer to something than its kind wants: heat, movement, rattling.",
    manual: MANUAL,
    about: About::Around,
    drawing: Drawing::Gap,
    run,
};

const MANUAL: &str = "\
What it looks for
  A place at which the room between the tube's outside and an obstacle is less than that obstacle's kind
  wants, or less than you have laid down for it.

Why it matters
  An exhaust is hot and moves: about 20 mm as it heats up, and a further 10 mm as it shakes (one
  practitioner's report). Too near to wiring, rubber, fuel or brake lines it burns them; too near to the
  body it rattles and marks.

How it is measured
  The distance of the centreline, straights as straights and arcs as arcs, from the surface, less half the
  outside diameter, told to a tenth of a micrometre and never more than there is. A tube's ends count as if
  they were round. Heat shields are not known: lay down a clearance of your own behind one.

Limit and its source
  To body and floor 25 mm, to wiring and rubber 100 mm, to fuel and brake lines 100 mm, to moving parts 25 mm
  beside their travel: common practice, no source. Beside fuel and brake lines less than 38.1 mm (1 1/2 in) is
  a reject by Maryland COMAR 11.22.02.11. Each can be changed for an obstacle. Tubes of one system must not
  touch; more than that nobody asks of them until you do.

Example
  A tube 18 mm beside the floor: 7 mm less than is usual.

Cure and its risk
  Move the corner, or shield what stands there and lay down the clearance that the shield allows. No button is
  offered, since the way round depends on what else stands there.

Caution
  Hot tube near fuel, brake lines, wiring or bodywork burns cars. Local vehicle law and a qualified fitter
  decide what is enough.
";

/// What is too near.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    to: Arc<str>,
    kind: &'static str,
    at_mm: f64,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    for clearance in subject.around.iter().filter(|clearance| !clearance.kind.is_ground()) {
        if let (Ok(gap), Some((wanted_mm, basis))) = (&clearance.measured, clearance.missed()) {
            let is_must = clearance.wanted.must.is_some_and(|(must_mm, _)| must_mm == wanted_mm);
            let facts = facts(subject, CHECK.fault, severity(basis, is_must), gap, (wanted_mm, basis));
            let (to, kind) = (Arc::clone(&clearance.to), clearance.kind.said());
            tell(facts, Evidence { to, kind, at_mm: gap.at_mm });
        }
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let [least, wanted] = said(facts, words);
        let Self { to, kind, .. } = self;
        let at = words.length(self.at_mm);
        format!("The tube comes within {least} of \u{201c}{to}\u{201d} ({kind}) at {at} along the tube; {wanted} are wanted.")
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let [least, wanted] = said(facts, words);
        let to = &self.to;
        match facts.severity {
            Severity::Stop => {
                format!("Must not stand as drawn: {least} to \u{201c}{to}\u{201d}, where {wanted} have to be kept.")
            }
            _ => format!("Bends, but comes within {least} of \u{201c}{to}\u{201d}, where {wanted} are usual."),
        }
    }
}
