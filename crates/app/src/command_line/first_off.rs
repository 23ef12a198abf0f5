//! `elbowroom first-off`: what the pieces measure against their design, and the program for the next.

use std::path::{Path, PathBuf};

use elbowroom_bending::first_off::job::{self, Job};
use elbowroom_bending::first_off::{Tolerance, ToleranceChoice};
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::{Plan, plan};
use elbowroom_exchange::report::{JudgedJob, first_off_to_json, first_off_to_text};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{FileProblem, read_text};
use elbowroom_workbench::measured_table::{Kind, read_measured};

use super::arguments::{Allowed, FirstOff, ReportFormat};
use super::{Failure, Outcome, output, shop, subject};

/// Reads, judges, reports.
pub fn run(arguments: &FirstOff) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let part = subject::part(&arguments.subject, &shop.shop)?;
    let measured = measurements(arguments.first.iter().chain(&arguments.measured))?;
    if part.pieces.is_empty() && measured.is_empty() {
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
    let chosen = arguments.allowed.over(part.tooling.tolerance)?;
    let (tolerance, job) = job(&plan, measured, chosen, &arguments.allowed)?;
    let judged = JudgedJob { plan: &plan, tolerance, chosen, machine: &shop.shop.machine, job: &job };
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

impl Allowed {
    /// What is named, and what a part has chosen for the rest.
    pub fn over(&self, of_part: ToleranceChoice) -> Result<ToleranceChoice, Failure> {
        let named = ToleranceChoice::new(self.angle_tolerance, self.length_tolerance).map_err(Failure::Figure)?;
        Ok(named.or(of_part))
    }
}

/// The pieces that a part holds and those that were measured since, each bent by the program that followed from those
/// before it; and by what they are judged.
pub fn job(
    plan: &Plan,
    measured: Vec<Measurement>,
    chosen: ToleranceChoice,
    allowed: &Allowed,
) -> Result<(Tolerance, Job), Failure> {
    let mut pieces = plan.part.pieces.clone();
    let stands_by = |index: usize| allowed.as_measured.iter().any(|number| *number as usize == index + 1);
    for (_, piece) in pieces.iter_mut().enumerate().filter(|(index, _)| stands_by(*index)) {
        *piece = piece.clone().stood_by(true);
    }
    let tolerance = job::tolerance(plan, chosen);
    let mut job = Job::of(plan, &pieces, &tolerance);
    for measurement in measured {
        let piece = job.next_piece(plan, measurement).map_err(Failure::Figure)?;
        pieces.push(piece.stood_by(stands_by(pieces.len())));
        job = Job::of(plan, &pieces, &tolerance);
    }
    match allowed.as_measured.iter().find(|number| **number as usize > pieces.len()) {
        Some(number) => Err(Failure::NoSuchPiece { number: *number, count: pieces.len() }),
        None => Ok((tolerance, job)),
    }
}

/// What was measured, a file a piece.
pub fn measurements<'a>(files: impl IntoIterator<Item = &'a PathBuf>) -> Result<Vec<Measurement>, FileProblem> {
    files.into_iter().map(|file| measurement(file)).collect()
}

fn measurement(file: &Path) -> Result<Measurement, FileProblem> {
    let name = file.display().to_string();
    read_measured(&read_text(file)?, Kind::Points, LengthUnit::Millimetre)
        .map_err(|problem| FileProblem::on_line(&name, problem.line, problem.what, ""))
}
