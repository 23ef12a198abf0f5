//! The sheet of the first-off: what the pieces measure, and the program for the next one.

mod deviations;
mod entry;
mod model;
mod next;
mod outcome;
mod words;

use std::sync::Arc;

use egui::{RichText, Slider, Ui};
use elbowroom_bending::first_off::ToleranceChoice;
use elbowroom_bending::{Edit, Severity};
use elbowroom_geometry::units::{format_angle_exact, parse_angle};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::{Command, LARGEST_MAGNIFICATION, Workbench};

use crate::program::{Choice, Drawing};
use crate::widgets::{FieldError, entry_field, heading, length_field, mark, named_row};
pub use deviations::{Row, Table};
use elbowroom_bending::text::capital;
pub use model::{Model, PieceLine, Stand, View};
pub use next::Next;

/// What the sheet remembers from frame to frame.
#[derive(Clone, Debug, Default)]
pub struct State {
    entry: entry::State,
    kept: Option<((u64, Choice), Arc<Model>)>,
}

impl State {
    /// The model, worked out anew only when something changed that it depends on.
    fn model(&mut self, workbench: &Workbench) -> Arc<Model> {
        let key = (workbench.revision(), Choice::of(workbench));
        match &self.kept {
            Some((kept, model)) if *kept == key => Arc::clone(model),
            _ => {
                let model = Arc::new(Model::of(workbench));
                self.kept = Some((key, Arc::clone(&model)));
                model
            }
        }
    }
}

/// Shows the sheet of a workbench.
pub fn show(ui: &mut Ui, workbench: &Workbench, state: &mut State) -> Vec<Command> {
    let model = state.model(workbench);
    self::ui(ui, &model, Drawing::of(workbench), state)
}

/// Shows the sheet.
fn ui(ui: &mut Ui, model: &Model, drawing: Drawing, state: &mut State) -> Vec<Command> {
    // First what the person has in hand, then what it says, then what to do.
    heading(ui, "First-off", |_| ());
    let mut commands = Vec::new();
    match &model.stand {
        Stand::Nothing => {
            ui.label("Bend the first piece, measure it, and give what it measures: the machine's errors come out, and the program for the next piece with them.");
        }
        Stand::NoProgram(why) => doubt(ui, &format!("There is no program to judge by: {why}.")),
        Stand::Judged(_) => (),
    }
    commands.extend(entry::ui(ui, model, &mut state.entry));
    if let Stand::Judged(view) = &model.stand {
        ui.add_space(6.0);
        commands.extend(outcome::ui(ui, view));
        if model.has_ghost() {
            commands.extend(ghost(ui, model));
        }
        commands.extend(outcome::correction(ui, view, drawing));
    }
    ui.add_space(6.0);
    heading(ui, "How the next piece is bent", |_| ());
    commands.extend(model.choice.ui(ui));
    ui.add_space(6.0);
    commands.extend(tolerance(ui, model));
    commands
}

fn doubt(ui: &mut Ui, text: &str) {
    ui.horizontal_wrapped(|ui| {
        mark(ui, Severity::Stop, 16.0);
        ui.label(RichText::new(text).strong());
    });
}

/// How the measured tube is drawn over the design.
fn ghost(ui: &mut Ui, model: &Model) -> Option<Command> {
    let mut times = model.magnification;
    ui.label("In the scene the measured tube lies over the design, its deviations drawn so many times as large:");
    let slider = Slider::new(&mut times, 1.0..=LARGEST_MAGNIFICATION).logarithmic(true).fixed_decimals(0);
    let changed = ui.add(slider.suffix(" times")).changed();
    (changed && times != model.magnification).then_some(Command::MagnifyGhost(times))
}

fn tolerance(ui: &mut Ui, model: &Model) -> Vec<Command> {
    heading(ui, "Tolerance", |_| ());
    let (now, chosen) = (model.tolerance, model.chosen);
    let mut commands = Vec::new();
    let choose = |angle: Option<Angle>, length: Option<Length>| match ToleranceChoice::new(angle, length) {
        Ok(choice) => Ok(Command::Edit(Edit::SetTolerance(choice))),
        Err(refusal) => Err(FieldError::Refused(format!("{}.", capital(&refusal.said(model.unit))))),
    };
    commands.extend(named_row(ui, 150.0, "Points and straights", |ui| {
        length_field(ui, "Length tolerance", now.length, model.unit, |length: Length| {
            choose(chosen.angle(), Some(length))
        })
    }));
    commands.extend(named_row(ui, 150.0, "Angles and rotations", |ui| {
        entry_field(ui, "Angle tolerance", &format_angle_exact(now.angle), |text| {
            choose(Some(parse_angle(text)?), chosen.length())
        })
    }));
    let published = "The angle is a fabricator's published procedure: 1° on a part of one bend, 1.5° on more up to 63.5 mm OD, 2° above.";
    let usual = [
        chosen.angle().is_none().then_some(published),
        chosen.length().is_none().then_some("The length is common practice, no source."),
    ];
    let usual: Vec<&str> = usual.into_iter().flatten().collect();
    if !usual.is_empty() {
        ui.label(RichText::new(usual.join(" ")).small().weak());
    }
    if chosen.is_own() && ui.button("Back to the usual tolerance").clicked() {
        commands.push(Command::Edit(Edit::SetTolerance(ToleranceChoice::default())));
    }
    commands
}
