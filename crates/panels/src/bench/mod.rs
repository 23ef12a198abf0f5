//! The bench: part, tube, die set, clamp, machine and shop. Every change is one step and is checked at
//! once.

mod describe;
mod model;
mod sections;

pub use describe::tube_text;
pub(crate) use describe::{seam_text, size_text};
pub use model::{ClampChoice, DieChoice, Fact, Fit, Model};
pub(crate) use model::{clamp_choices as clamps_in_use, die_choices, materials, sizes, used_dies as dies_in_use};

use egui::{Button, Ui};
use elbowroom_workbench::Command;

use crate::widgets::{heading, legend};

/// Shows the drawer.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    heading(ui, "Bench", |ui| {
        if ui.add(Button::new("Close").small()).on_hover_text("Close the bench").clicked() {
            commands.push(Command::ToggleBench);
        }
    });
    for section in [
        sections::part,
        sections::tube,
        sections::die,
        sections::clamp,
        sections::stock,
        sections::machine,
        sections::shop,
    ] {
        commands.extend(section(ui, model));
        ui.add_space(6.0);
    }
    legend(ui, model.unsure());
    commands
}
