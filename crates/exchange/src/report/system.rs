//! The reports of several tubes of one system: one object of them for scripts, one after the other for people.

use std::io;

use elbowroom_bending::{Part, Severity, Shop, Solved, Words};
use serde::Serialize;

use super::around_json::{ClearanceFields, clearances};
use super::json::{Report, Verdict};
use super::sink::Sink;
use super::{TextContext, write_text};

/// The name and version of the report.
const REPORT: &str = "elbowroom-system/1";

#[derive(Serialize)]
struct SystemReport<'a> {
    report: &'static str,
    /// `null` where nobody has named the whole.
    system: Option<&'a str>,
    /// The worst of any tube.
    verdict: Verdict,
    tubes: Vec<TubeReport<'a>>,
    clearances: Vec<ClearanceFields<'a>>,
}

#[derive(Serialize)]
struct TubeReport<'a> {
    name: &'a str,
    check: Report<'a>,
}

/// Writes the reports of the tubes of a system as one line of JSON, without a line ending, bit by bit. `name` is what
/// the whole is called.
///
/// # Errors
/// Those of what is written to.
pub fn write_system_json(
    out: impl io::Write,
    name: &str,
    shop: &Shop,
    tubes: &[(Part, Solved)],
) -> Result<(), serde_json::Error> {
    let mut told: Vec<ClearanceFields> = Vec::new();
    for (part, solved) in tubes {
        for next in clearances(part, solved) {
            // Of two tubes each is measured against the other: that is one clearance.
            if !told.iter().any(|told| told.is_the_same_pair_as(&next)) {
                told.push(next);
            }
        }
    }
    let report = SystemReport {
        report: REPORT,
        system: Some(name).filter(|name| !name.trim().is_empty()),
        verdict: verdict(tubes, shop),
        tubes: tubes
            .iter()
            .map(|(part, solved)| TubeReport { name: &part.name, check: Report::of(part, shop, solved) })
            .collect(),
        clearances: told,
    };
    serde_json::to_writer(out, &report)
}

/// The verdict of the tube that is worst off, the first of those that are as badly off, under its name.
fn verdict(tubes: &[(Part, Solved)], shop: &Shop) -> Verdict {
    let worst = tubes.iter().rev().max_by_key(|(_, solved)| solved.worst());
    let Some((part, solved)) = worst.filter(|(_, solved)| solved.worst().is_some()) else {
        return Verdict { severity: "none", text: "Every tube bends as drawn.".into() };
    };
    let verdict = solved.verdict(&Words::new(part, shop, solved));
    let text = format!("{}: {}", named(part), verdict.text);
    Verdict { severity: verdict.severity.map_or("none", Severity::word), text }
}

/// Writes the reports of the tubes of a system as text, bit by bit: the verdicts at the head, then each tube in turn
/// under its name.
///
/// # Errors
/// Those of what is written to.
pub fn write_system_text(
    out: &mut dyn io::Write,
    name: &str,
    tubes: &[(Part, Solved)],
    context: TextContext,
) -> io::Result<()> {
    let called = if name.trim().is_empty() { String::new() } else { format!("{name}: ") };
    let mut sink = Sink::new(out);
    sink.text(&format!("{called}{} tubes\n", tubes.len()))?;
    for (part, solved) in tubes {
        sink.text(&format!("{}: {}\n", named(part), solved.verdict(&Words::new(part, context.shop, solved)).text))?;
    }
    for (part, solved) in tubes {
        let heading = named(part);
        let line = "=".repeat(heading.chars().count());
        Sink::new(out).text(&format!("\n{heading}\n{line}\n"))?;
        write_text(out, part, solved, context)?;
    }
    Ok(())
}

fn named(part: &Part) -> &str {
    if part.name.trim().is_empty() { "Tube without a name" } else { &part.name }
}
