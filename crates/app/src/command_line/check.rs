//! `elbowroom check`: can these tubes be bent on the tooling?

use elbowroom_bending::{Part, Severity, Solved, solve};
use elbowroom_exchange::report::{TextContext, system_to_json, system_to_text, to_text, write_json};

use super::arguments::{Check, ReportFormat};
use super::{Failure, Outcome, output, shop, subject};

/// Reads, solves, reports.
pub fn run(arguments: &Check) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let (name, parts) = subject::parts(&arguments.subject, &shop.shop)?;
    let checked = |part: Part| {
        let solved = solve(&part, &shop.shop);
        (part, solved)
    };
    let tubes: Vec<(Part, Solved)> = parts.into_iter().map(checked).collect();
    let context = TextContext { shop: &shop.shop, shop_from: &shop.from };
    let stopped = tubes.iter().any(|(_, solved)| solved.worst() == Some(Severity::Stop));
    let outcome = if stopped { Outcome::Stopped } else { Outcome::Passes };
    if let (ReportFormat::Json, [(part, solved)]) = (arguments.format, tubes.as_slice()) {
        output::print_bit_by_bit(|out| write_json(out, part, &shop.shop, solved).map_err(Into::into))?;
        return Ok(outcome);
    }
    let text = match (arguments.format, tubes.as_slice()) {
        (ReportFormat::Text, [(part, solved)]) => to_text(part, solved, context),
        (ReportFormat::Text, tubes) => system_to_text(&name, tubes, context),
        (ReportFormat::Json, tubes) => line(system_to_json(&name, &shop.shop, tubes))?,
    };
    output::print(&text)?;
    Ok(outcome)
}

fn line(report: Result<String, serde_json::Error>) -> Result<String, Failure> {
    report.map(|line| line + "\n").map_err(|error| Failure::Output(error.into()))
}
