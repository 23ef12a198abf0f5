//! `elbowroom program`: what to set on the machine, bend by bend.

use elbowroom_bending::plan::{Plan, plan};
use elbowroom_bending::program_sheet::{ProgramSheet, beyond_machine, used_up};
use elbowroom_bending::setup::Setup;
use elbowroom_bending::{Severity, Shop, Words};
use elbowroom_exchange::report::{TextContext, program_to_csv, program_to_json, program_to_text};

use super::arguments::{Figures, Program, ProgramFormat};
use super::{Failure, Outcome, complain, first_off, output, shop, subject};

/// Reads, plans, writes the program.
pub fn run(arguments: &Program) -> Result<Outcome, Failure> {
    let shop = shop::chosen(arguments.subject.shop.as_deref())?;
    let mut part = subject::part(&arguments.subject, &shop.shop)?;
    if let Some(figures) = arguments.figures {
        part.tooling.as_planned = figures == Figures::Planned;
    }
    let measured = first_off::measurements(&arguments.measured)?;
    let plan =
        plan(&part, &shop.shop).map_err(|why| Failure::NoProgram { file: arguments.subject.file.clone(), why })?;
    let chosen = arguments.allowed.over(part.tooling.tolerance)?;
    let (_, job) = first_off::job(&plan, measured, chosen, &arguments.allowed)?;
    let plan = job.planned(&plan);
    let doubts = job.pieces.iter().enumerate();
    for (index, doubt) in doubts.filter_map(|(index, piece)| Some((index, piece.aside.as_ref()?))) {
        complain(&format!("piece {} is not followed: {doubt}", index + 1));
    }
    let setup = Setup::of(&plan, &shop.shop);
    let text = match arguments.format {
        ProgramFormat::Text => program_to_text(&plan, &setup, TextContext { shop: &shop.shop, shop_from: &shop.from }),
        ProgramFormat::Json => {
            let sheet = ProgramSheet::of(&plan, &shop.shop, setup);
            program_to_json(&plan, &sheet).map(|line| line + "\n").map_err(|error| Failure::Output(error.into()))?
        }
        ProgramFormat::Csv => program_to_csv(&plan).map_err(Failure::Output)?,
    };
    output::print(&text)?;
    let stops = stops(&plan, &shop.shop);
    for stop in &stops {
        complain(stop);
    }
    Ok(if stops.is_empty() { Outcome::Passes } else { Outcome::Stopped })
}

/// Everything that stops the part from being bent by this program, in words.
fn stops(plan: &Plan, shop: &Shop) -> Vec<String> {
    let words = Words::new(&plan.part, shop, &plan.solved);
    let findings = plan.solved.told(&words);
    let at_stop = findings.iter().filter(|finding| finding.severity == Severity::Stop);
    let found = at_stop.map(|finding| format!("stop: {}", finding.text));
    let used_up = used_up(plan).map(|words| format!("stop: {words}"));
    let beyond = beyond_machine(plan, &shop.machine).into_iter().map(|words| format!("stop: {words}"));
    found.chain(used_up).chain(beyond).collect()
}
