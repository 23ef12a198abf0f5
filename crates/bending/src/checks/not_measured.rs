//! `not-measured`: something stands around the tube, and nobody knows how near.

use std::sync::Arc;

use super::check::{About, Check, Drawing, Said, Tell};
use super::finding::{Facts, Place, Severity, Unit};
use super::subject::Subject;
use super::words::Words;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "not-measured",
    title: "Not measured",
    severity: "A stop where nothing could be measured, a caution where it was measured against a file that has changed.",
    summary: "The file of something that stands around the tube is missing, broken or has changed.",
    manual: MANUAL,
    about: About::Around,
    drawing: Drawing::Nothing,
    run,
};

const MANUAL: &str = "\
What it looks for
  An obstacle whose mesh lies in a file that is not there, cannot be read, or is not the file that it was
  when it was taken in.

Why it matters
  What is not measured looks like room. A tube that seems clear of a chassis that nobody has read is a tube
  that meets it on the day it is fitted.

How it is measured
  The file is read anew each time. Its bytes are known by their BLAKE3 hash, which the system file keeps.

Limit and its source
  None: it is there and the same, or it is not.

Example
  chassis.stl was moved to another folder: the tube is not measured against it, and the verdict is a stop.

Cure and its risk
  Put the file back, or take it in again from where it lies now. Of a file that has changed look at it in the
  place where it stands, since it may have moved with its own origin; then take it in again.

Caution
  A mesh shows what was drawn or scanned, not what was fitted since: hoses, wiring and fuel lines that are
  not in it are not measured either.
";

/// What nobody has measured, or measured on a doubtful file.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    to: Arc<str>,
    why: Arc<str>,
    is_measured: bool,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    for clearance in subject.around {
        let (why, is_measured) = match (&clearance.measured, &clearance.doubt) {
            (Err(why), _) => (why, false),
            (Ok(_), Some(doubt)) => (doubt, true),
            (Ok(_), None) => continue,
        };
        let facts = Facts {
            fault: CHECK.fault,
            severity: if is_measured { Severity::Caution } else { Severity::Stop },
            place: Place { to_mm: subject.solved.developed_length_mm, ..Place::default() },
            also: Vec::new(),
            measured: 1.0,
            limit: 0.0,
            unit: Unit::Count,
            measured_basis: None,
            limit_basis: None,
        };
        tell(facts, Evidence { to: Arc::clone(&clearance.to), why: Arc::clone(why), is_measured });
    }
}

impl Said for Evidence {
    fn text(&self, _: &Facts, _: &Words) -> String {
        let Self { to, why, .. } = self;
        match self.is_measured {
            false => format!("Nothing is known of the room between the tube and \u{201c}{to}\u{201d}: {why}."),
            true => format!("The room between the tube and \u{201c}{to}\u{201d} is that of another file: {why}."),
        }
    }

    fn verdict(&self, _: &Facts, _: &Words) -> String {
        let to = &self.to;
        match self.is_measured {
            false => format!("Nobody knows whether it clears \u{201c}{to}\u{201d}: that was not measured."),
            true => format!("Bends, but the file of \u{201c}{to}\u{201d} is not the one that it was."),
        }
    }
}
