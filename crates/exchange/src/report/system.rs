//! The reports of several tubes of one system: one object of them for scripts, one after the other for people.

use elbowroom_bending::{Part, Severity, Shop, Solved, Words};
use serde::Serialize;

use super::json::Report;
use super::{TextContext, to_text};

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

/// The reports of the tubes of a system as one line of JSON, without a line ending. `name` is what the whole is called.
///
/// # Errors
/// None that is known: every value has a JSON form. The type is that of the writer.
pub fn system_to_json(name: &str, shop: &Shop, tubes: &[(Part, Solved)]) -> Result<String, serde_json::Error> {
    let worst = tubes.iter().filter_map(|(_, solved)| solved.worst()).max();
    serde_json::to_string(&SystemReport {
        report: REPORT,
        system: Some(name).filter(|name| !name.trim().is_empty()),
        severity: worst.map_or("none", Severity::word),
        tubes: tubes
            .iter()
            .map(|(part, solved)| TubeReport { name: &part.name, report: Report::of(part, shop, solved) })
            .collect(),
    })
}

/// The reports of the tubes of a system as text: the verdicts at the head, then each tube in turn under its name.
pub fn system_to_text(name: &str, tubes: &[(Part, Solved)], context: TextContext) -> String {
    let called = if name.trim().is_empty() { String::new() } else { format!("{name}: ") };
    let mut text = format!("{called}{} tubes\n", tubes.len());
    for (part, solved) in tubes {
        text += &format!("{}: {}\n", named(part), solved.verdict(&Words::new(part, context.shop)).text);
    }
    for (part, solved) in tubes {
        let heading = named(part);
        let line = "=".repeat(heading.chars().count());
        text += &format!("\n{heading}\n{line}\n{}", to_text(part, solved, context));
    }
    text
}

fn named(part: &Part) -> &str {
    if part.name.trim().is_empty() { "Tube without a name" } else { &part.name }
}
