//! The reports of several tubes of one system: one object of them for scripts, one after the other for people.

use std::io;

use elbowroom_bending::{Part, Severity, Shop, Solved, Words};
use serde::Serialize;

use super::json::Report;
use super::sink::Sink;
use super::{TextContext, write_text};

/// The name and version of the report.
const REPORT: &str = "elbowroom-system-check/1";

#[derive(Serialize)]
struct SystemReport<'a> {
    report: &'static str,
    /// `null` where nobody has named the whole.
    system: Option<&'a str>,
    /// The worst of any tube.
    severity: &'static str,
    tubes: Vec<TubeReport<'a>>,
}

#[derive(Serialize)]
struct TubeReport<'a> {
    name: &'a str,
    #[serde(flatten)]
    report: Report<'a>,
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
    let worst = tubes.iter().filter_map(|(_, solved)| solved.worst()).max();
    let report = SystemReport {
        report: REPORT,
        system: Some(name).filter(|name| !name.trim().is_empty()),
        severity: worst.map_or("none", Severity::word),
        tubes: tubes
            .iter()
            .map(|(part, solved)| TubeReport { name: &part.name, report: Report::of(part, shop, solved) })
            .collect(),
    };
    serde_json::to_writer(out, &report)
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
