//! The sheet of springback: what the shop's trial bends say of a die set in the tube's material, and what
//! is to be set for each bend.

mod bends;
mod line;
mod model;
mod plot;
mod trials;

pub use model::{Known, Model, SetBend};
pub use trials::State;

use egui::{RichText, Ui};
use elbowroom_bending::Severity;
use elbowroom_bending::text::sentence;
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
    ui.add_space(6.0);
    commands.extend(line::ui(ui, known));
    ui.add_space(6.0);
    bends::ui(ui, known);
    legend(ui, known.unsure());
    ui.label(RichText::new(&known.kept).small().weak());
    commands
}
