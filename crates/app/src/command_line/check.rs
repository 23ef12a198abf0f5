//! `elbowroom check`: can this part be bent on the tooling?

use elbowroom_bending::{Severity, solve};
use elbowroom_exchange::report::{TextContext, to_json, to_text};

use super::arguments::{Check, ReportFormat};
use super::{Failure, Outcome, output, shop, subject};

/// Reads, solves, reports.
pub fn run(arguments: &Check) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let part = subject::part(&arguments.subject, &shop.shop)?;
    let solved = solve(&part, &shop.shop);
    let text = match arguments.format {
        ReportFormat::Text => to_text(&part, &solved, TextContext { shop: &shop.shop, shop_from: &shop.from }),
        ReportFormat::Json => {
            to_json(&part, &solved).map(|line| line + "\n").map_err(|error| Failure::Output(error.into()))?
        }
    };
    output::print(&text)?;
    Ok(if solved.worst() == Some(Severity::Stop) { Outcome::Stopped } else { Outcome::Passes })
}
