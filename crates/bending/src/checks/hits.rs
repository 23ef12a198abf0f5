//! `hits`: the tube wants the same room as something that stands around it.

use std::sync::Arc;

use super::check::{About, Check, Drawing, Said, Tell};
use super::finding::{Facts, Severity};
use super::nearby::facts;
use super::subject::Subject;
use super::words::Words;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "hits",
    title: "Tube hits something",
    severity: "Always a stop.",
    summary: "The tube wants the same room as an obstacle or as another tube.",
    manual: MANUAL,
    about: About::Around,
    drawing: Drawing::Gap,
    run,
};

const MANUAL: &str = "\
What it looks for
  A place at which the tube's outside reaches into an obstacle or into another tube of the system, and a
  tube that lies inside of a closed body without touching it.

Why it matters
  It cannot be fitted. Found on the drawing it costs a drag of a corner, found on the car a tube.

How it is measured
  The distance of the centreline, straights as straights and arcs as arcs, from the surface, less half the
  outside diameter. Where the centreline itself goes through a mesh half the diameter is all that is known of
  the depth; inside of a box, a cylinder or the ground the depth is that of the surface. A mesh has an inside
  where its triangles close it. Tubes whose ends are drawn onto one another are joined there: the stretch on
  which they touch from that end on does not count. Trims are not counted.

Limit and its source
  Nothing: geometry.

Example
  A 60.3 mm tube whose centre passes 20 mm from a cross tube's surface reaches 10.2 mm into it.

Cure and its risk
  Move the corner, or the obstacle if it can be moved. Which is right depends on what else stands there, so no
  button is offered. Leave room for heat and movement as well: see too-close.

Caution
  The figures are those of the drawing. Fit the first tube cold and by hand before anything is welded.
";

/// What is hit.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    to: Arc<str>,
    at_mm: f64,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    for clearance in subject.around {
        if let Ok(gap) = &clearance.measured
            && clearance.hits()
        {
            let facts = facts(subject, CHECK.fault, Severity::Stop, gap, (0.0, None));
            tell(facts, Evidence { to: Arc::clone(&clearance.to), at_mm: gap.at_mm });
        }
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        format!(
            "The tube reaches {} at least into \u{201c}{}\u{201d}, {} along the tube.",
            words.length(-facts.measured),
            self.to,
            words.length(self.at_mm)
        )
    }

    fn verdict(&self, _: &Facts, words: &Words) -> String {
        let at = words.length(self.at_mm);
        format!("Cannot stand as drawn: the tube runs into \u{201c}{}\u{201d}, {at} along the tube.", self.to)
    }
}
