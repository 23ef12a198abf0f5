//! The sheet of springback: what the shop's trial bends say of a die set in the tube's material, and what
//! is to be set for each bend.

mod bends;
mod line;
mod model;
mod plot;
mod trials;

pub use model::{Known, Model, PieceTrials, SetBend};
pub use trials::State;

use egui::{RichText, Ui};
use elbowroom_bending::text::sentence;
use elbowroom_bending::{Knowledge, Severity};
use elbowroom_workbench::Command;

use crate::widgets::{figure, heading, legend, mark};

/// Shows the sheet.
pub fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    let Some(known) = &model.known else {
        heading(ui, "Springback", |_| ());
        ui.label("No die set of the shop bends this part, so there is no springback to know. Choose one on the bench.");
        return Vec::new();
    };
    heading(ui, "Springback", |_| ());
    ui.label(format!("{} in {}", known.die, known.material));
    ui.horizontal_wrapped(|ui| {
        if known.unsure() {
            mark(ui, Severity::Caution, 14.0);
        }
        figure(ui, &known.line_text(), known.ground(), "");
    });
    ui.label(RichText::new(sentence(&known.from)).weak());
    if !known.range.is_empty() {
        ui.label(RichText::new(&known.range).weak());
    }
    for warning in known.warnings() {
        ui.horizontal_wrapped(|ui| {
            mark(ui, Severity::Caution, 12.0);
            ui.label(warning);
        });
    }
    plot::ui(ui, known);
    let mut commands = trials::ui(ui, known, state);
    commands.extend(pieces(ui, known));
    ui.add_space(6.0);
    commands.extend(line::ui(ui, known));
    ui.add_space(6.0);
    bends::ui(ui, known);
    legend(ui, known.unsure());
    ui.label(RichText::new(&known.kept).small().weak());
    commands
}

/// The measured pieces of the part, to be taken as trial bends.
fn pieces(ui: &mut Ui, known: &Known) -> Vec<Command> {
    let mut commands = Vec::new();
    for piece in &known.pieces {
        let bends = if piece.trials.len() == 1 { "bend" } else { "bends" };
        let text = format!("Take {} {bends} of measured piece {} as trials", piece.trials.len(), piece.number);
        let hint =
            "Adds what each was set to and what was measured on it. The shop keeps them whatever becomes of the part";
        if ui.button(text).on_hover_text(hint).clicked() {
            let trials = known.trials.iter().chain(&piece.trials).copied().collect();
            commands.push(known.change(Knowledge::Trials(trials)));
        }
    }
    commands
}
