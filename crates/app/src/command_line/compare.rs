//! `elbowroom compare`: which of the shop's tooling makes the part, best first.

use elbowroom_bending::compare::compare;
use elbowroom_bending::requirements::requirements;
use elbowroom_bending::{Severity, solve};
use elbowroom_exchange::report::{TextContext, compare_to_json, compare_to_text};

use super::arguments::{Compare, ReportFormat};
use super::{Failure, Outcome, output, shop, subject};

/// Reads, compares, reports.
pub fn run(arguments: &Compare) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let part = subject::part(&arguments.subject, &shop.shop)?;
    let comparison = compare(&part, &shop.shop);
    let required = requirements(&part, &shop.shop, &solve(&part, &shop.shop));
    let text = match arguments.format {
        ReportFormat::Text => {
            let context = TextContext { shop: &shop.shop, shop_from: &shop.from };
            compare_to_text(&part, &comparison, &required, context)
        }
        ReportFormat::Json => compare_to_json(&comparison, &required)
            .map(|line| line + "\n")
            .map_err(|error| Failure::Output(error.into()))?,
    };
    output::print(&text)?;
    let makes_it = |severity: Option<Severity>| severity != Some(Severity::Stop);
    let some = comparison.rows.iter().any(|row| makes_it(row.verdict.severity));
    Ok(if some { Outcome::Passes } else { Outcome::Stopped })
}
