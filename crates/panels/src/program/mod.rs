//! The bend program on screen: from which end, to which side, what to set bend by bend, the setup list and
//! what to be careful of. It can be taken along as text or as a table.

mod choices;
mod model;
pub(crate) mod steps;

use std::sync::Arc;

use egui::{Label, RichText, Ui};
use elbowroom_bending::program_sheet::ProgramSheet;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::{Command, Workbench};

use crate::style::heading_text;
use crate::widgets::{heading, legend, mark as severity_mark};
pub use choices::Choice;
pub(crate) use choices::{bent_first, corrected};
use model::mark;
pub(crate) use model::table;
pub use model::{Model, Sheet};
pub use steps::{Drawing, StepLine};

/// What the program remembers from frame to frame.
#[derive(Default)]
pub struct State {
    kept: Option<(u64, Arc<Model>)>,
}

impl State {
    /// The model, worked out anew only when something changed that it depends on. With `asked` a part of very
    /// many bends is worked out too.
    fn model(&mut self, workbench: &Workbench, asked: bool) -> Arc<Model> {
        let key = workbench.revision();
        match &self.kept {
            Some((kept, model)) if *kept == key && !asked => Arc::clone(model),
            _ => {
                let model = Arc::new(if asked { Model::at_any_length(workbench) } else { Model::of(workbench) });
                self.kept = Some((key, Arc::clone(&model)));
                model
            }
        }
    }
}

/// Draws the program of a workbench.
pub fn show(ui: &mut Ui, workbench: &Workbench, state: &mut State) -> Vec<Command> {
    let mut model = state.model(workbench, false);
    heading(ui, "Bend program", |_| ());
    let mut commands = Choice::of(workbench).ui(ui);
    if let Some(too_many) = model.too_long {
        ui.label(format!("{too_many} bends take a moment: the program is worked out when you ask for it."));
        if ui.button("Work it out").clicked() {
            model = state.model(workbench, true);
        }
    }
    commands.extend(sheet(ui, &model, workbench));
    commands
}

fn sheet(ui: &mut Ui, model: &Model, workbench: &Workbench) -> Vec<Command> {
    let sheet = match &model.sheet {
        Some(Ok(sheet)) => sheet,
        Some(Err(why)) => {
            ui.label(RichText::new(format!("There is no program: {why}.")).color(ui.visuals().error_fg_color));
            return Vec::new();
        }
        None => return Vec::new(),
    };
    let said = &sheet.said;
    let asked = sheet.correction.and_then(|(after, is_corrected)| corrected(ui, after, is_corrected));
    for words in said.stops() {
        ui.label(RichText::new(format!("Stop: {words}")).color(ui.visuals().error_fg_color));
    }
    for line in said.head.iter().chain(&said.blank) {
        // An unsure figure carries the mark itself.
        fact(ui, "", &line.name, &line.value, &line.source);
    }
    ui.add_space(4.0);
    let copied = copies(ui, "sheet", sheet.unit, || model.to_string(), &sheet.table);
    ui.add_space(8.0);
    heading(ui, &format!("Steps, {} and degrees", sheet.unit.name()), |_| ());
    let mut commands = steps::ui(ui, &said.steps, Drawing::of(workbench));
    if !said.explained.is_empty() {
        ui.add_space(4.0);
        ui.add(Label::new(RichText::new(&said.explained).small().weak()).wrap());
        ui.add_space(8.0);
        heading(ui, "Springback", |_| ());
    }
    for line in &said.springback {
        fact(ui, mark(line.unsure), &line.name, &line.value, &line.source);
    }
    if let Some(advice) = said.advice {
        ui.add(Label::new(RichText::new(advice).small().weak()).wrap());
    }
    ui.add_space(8.0);
    heading(ui, "Verdict", |_| ());
    verdict(ui, said);
    ui.add_space(8.0);
    heading(ui, "Setup", |_| ());
    for item in &said.setup {
        fact(ui, mark(item.unsure), item.what, &item.value, &item.source);
    }
    ui.add_space(8.0);
    heading(ui, "Take care", |_| ());
    for caution in &said.cautions {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 5.0;
            ui.label(format!("\u{2022} {}", caution.text));
            ui.label(RichText::new(format!("({})", caution.source)).small().weak());
        });
    }
    legend(ui, said.unsure());
    commands.extend(asked);
    commands.extend(copied);
    commands
}

/// The buttons that put a sheet and the table of its steps on the clipboard. What was copied, and in which units, is said.
pub(crate) fn copies(
    ui: &mut Ui,
    what: &str,
    unit: LengthUnit,
    sheet: impl FnOnce() -> String,
    table: &str,
) -> Option<Command> {
    let mut said = None;
    ui.horizontal_wrapped(|ui| {
        let hint = format!("Puts all of this on the clipboard as text, lengths in {}.", unit.name());
        if ui.button(format!("Copy the {what}")).on_hover_text(hint).clicked() {
            ui.ctx().copy_text(sheet());
            said = Some(format!("The {what} is on the clipboard as text, lengths in {}.", unit.name()));
        }
        let hint = "Puts the steps on the clipboard as comma-separated text in mm and degrees, all digits.";
        if ui.button("Copy the table").on_hover_text(hint).clicked() {
            ui.ctx().copy_text(table.to_owned());
            said = Some("The table of the steps is on the clipboard, in mm and degrees with all digits.".to_owned());
        }
    });
    said.map(Command::TellCopied)
}

/// The verdict on the part as it is bent here, and what the checks find then.
fn verdict(ui: &mut Ui, said: &ProgramSheet) {
    const SHOWN: usize = 24;
    ui.add(Label::new(&said.verdict.text).wrap());
    for finding in said.findings.iter().take(SHOWN) {
        ui.horizontal_top(|ui| {
            severity_mark(ui, finding.severity, 13.0);
            ui.add(Label::new(&finding.text).wrap());
        });
    }
    if let Some(rest) = said.findings.len().checked_sub(SHOWN).filter(|rest| *rest > 0) {
        ui.label(RichText::new(format!("And {rest} more; the copied sheet lists them all.")).small().weak());
    }
}

/// Least height of a line of text, points: nothing in it is clicked.
const LINE: f32 = 18.0;

/// A name, what there is to say, and where it comes from.
fn fact(ui: &mut Ui, mark: &str, name: &str, value: &str, source: &str) {
    ui.scope(|ui| {
        ui.spacing_mut().interact_size.y = LINE;
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 5.0;
            ui.label(RichText::new(format!("{mark}{name}")).text_style(heading_text()));
            ui.label(value);
            if !source.is_empty() {
                ui.label(RichText::new(format!("({source})")).small().weak());
            }
        });
    });
}
