//! `elbowroom check`: can these tubes be bent on the tooling?

use std::path::Path;

use elbowroom_bending::around::Clearance;
use elbowroom_bending::{Part, Severity, Solved, solve};
use elbowroom_exchange::neighbours;
use elbowroom_exchange::report::{TextContext, write_json, write_system_json, write_system_text, write_text};

use super::arguments::{Check, ReportFormat};
use super::subject::Tubes;
use super::{Failure, Outcome, around, output, shop, subject};

/// Reads, solves, reports.
pub fn run(arguments: &Check) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let named = around::named(&arguments.around)?;
    let Tubes { system, asked, others } = subject::tubes(&arguments.subject, &shop.shop)?;
    let checked = |part: Part| {
        let solved = solve(&part, &shop.shop);
        (part, solved)
    };
    let tubes: Vec<(Part, Solved)> = asked.into_iter().map(checked).collect();
    let folder = arguments.subject.file.parent().unwrap_or(Path::new(""));
    let mut neighbours = neighbours(&system, folder, arguments.around.clearance);
    neighbours.extend(named);
    let clearances = around::measured(&tubes, &others, neighbours);
    let beside = |((part, solved), clearances): ((Part, Solved), Vec<Clearance>)| {
        let solved = if clearances.is_empty() { solved } else { solved.beside(&part, &shop.shop, clearances) };
        (part, solved)
    };
    let tubes: Vec<(Part, Solved)> = tubes.into_iter().zip(clearances).map(beside).collect();
    let context = TextContext { shop: &shop.shop, shop_from: &shop.from };
    let stopped = tubes.iter().any(|(_, solved)| solved.worst() == Some(Severity::Stop));
    let outcome = if stopped { Outcome::Stopped } else { Outcome::Passes };
    output::print_bit_by_bit(|out| match (arguments.format, tubes.as_slice()) {
        (ReportFormat::Text, [(part, solved)]) => write_text(out, part, solved, context),
        (ReportFormat::Text, tubes) => write_system_text(out, system.name(), tubes, context),
        (ReportFormat::Json, [(part, solved)]) => {
            write_json(&mut *out, part, &shop.shop, solved)?;
            out.write_all(b"\n")
        }
        (ReportFormat::Json, tubes) => {
            write_system_json(&mut *out, system.name(), &shop.shop, tubes)?;
            out.write_all(b"\n")
        }
    })?;
    Ok(outcome)
}
