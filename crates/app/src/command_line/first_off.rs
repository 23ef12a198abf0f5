//! `elbowroom first-off`: what the first piece measures against its design, and the program for the next.

use elbowroom_bending::first_off::Tolerance;
use elbowroom_bending::measurement::judge;
use elbowroom_bending::plan::plan;
use elbowroom_exchange::report::{JudgedPart, first_off_to_json, first_off_to_text};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{FileProblem, read_text};
use elbowroom_workbench::measured_table::{Kind, read_measured};

use super::arguments::{FirstOff, ReportFormat};
use super::{Failure, Outcome, output, shop, subject};

/// Reads, judges, reports.
pub fn run(arguments: &FirstOff) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let part = subject::part(&arguments.subject, &shop.shop)?;
    let file = arguments.measured.display().to_string();
    let measurement = read_measured(&read_text(&arguments.measured)?, Kind::Vertices, LengthUnit::Millimetre)
        .map_err(|problem| FileProblem::on_line(&file, problem.line, problem.what, ""))?;
    let hand = arguments.hand.map_or(shop.shop.machine.hand, Into::into);
    let plan = plan(&part, &shop.shop, arguments.from.into(), hand)
        .map_err(|why| Failure::NoProgram { file: arguments.subject.file.clone(), why })?;
    let usual = Tolerance::usual(plan.program.steps.len(), part.tube.od);
    let tolerance = Tolerance {
        angle: arguments.angle_tolerance.unwrap_or(usual.angle),
        length: arguments.length_tolerance.unwrap_or(usual.length),
    };
    let first_off = judge(&plan, &measurement, tolerance);
    let judged = JudgedPart { plan: &plan, tolerance, first_off: &first_off };
    let text = match arguments.format {
        ReportFormat::Text => first_off_to_text(judged),
        ReportFormat::Json => {
            first_off_to_json(judged).map(|line| line + "\n").map_err(|error| Failure::Output(error.into()))?
        }
    };
    output::print(&text)?;
    Ok(if first_off.is_ok_and(|first_off| first_off.within) { Outcome::Passes } else { Outcome::Stopped })
}
