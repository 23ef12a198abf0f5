//! `elbowroom first-off`: what the pieces measure against their design, and the program for the next.

use std::path::Path;

use elbowroom_bending::first_off::Tolerance;
use elbowroom_bending::first_off::job::Job;
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::plan;
use elbowroom_exchange::report::{JudgedJob, first_off_to_json, first_off_to_text};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{FileProblem, read_text};
use elbowroom_workbench::measured_table::{Kind, read_measured};

use super::arguments::{FirstOff, ReportFormat};
use super::{Failure, Outcome, output, shop, subject};

/// Reads, judges, reports.
pub fn run(arguments: &FirstOff) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let part = subject::part(&arguments.subject, &shop.shop)?;
    let given = || arguments.first.iter().chain(&arguments.measured);
    let measured: Vec<Measurement> = given().map(|file| measurement(file)).collect::<Result<_, _>>()?;
    let mut pieces = part.pieces.clone();
    if pieces.is_empty() && measured.is_empty() {
        let right = "name a table of what was measured after it: elbowroom first-off PART MEASURED";
        return Err(FileProblem::whole(
            arguments.subject.file.display().to_string(),
            "it holds no measured piece",
            right,
        )
        .into());
    }
    let plan =
        plan(&part, &shop.shop).map_err(|why| Failure::NoProgram { file: arguments.subject.file.clone(), why })?;
    let usual = Tolerance::usual(plan.program.steps.len(), part.tube.od);
    let tolerance = Tolerance {
        angle: arguments.angle_tolerance.unwrap_or(usual.angle),
        length: arguments.length_tolerance.unwrap_or(usual.length),
    };
    let mut job = Job::of(&plan, &pieces, &tolerance);
    for measurement in measured {
        pieces.push(job.next_piece(&plan, measurement));
        job = Job::of(&plan, &pieces, &tolerance);
    }
    let judged = JudgedJob { plan: &plan, tolerance, machine: &shop.shop.machine, job: &job };
    let text = match arguments.format {
        ReportFormat::Text => first_off_to_text(judged),
        ReportFormat::Json => {
            first_off_to_json(judged).map(|line| line + "\n").map_err(|error| Failure::Output(error.into()))?
        }
    };
    output::print(&text)?;
    let within = job.last().and_then(|last| last.within(&tolerance)).unwrap_or(false);
    Ok(if within { Outcome::Passes } else { Outcome::Stopped })
}

fn measurement(file: &Path) -> Result<Measurement, FileProblem> {
    let name = file.display().to_string();
    read_measured(&read_text(file)?, Kind::Points, LengthUnit::Millimetre)
        .map_err(|problem| FileProblem::on_line(&name, problem.line, problem.what, ""))
}
