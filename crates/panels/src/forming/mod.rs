//! The forming sheet: what bending does to the tube at a bend, the seam along the part, the material, and
//! what each figure rests on.

mod bend;
mod group;
mod legs;
mod material;
mod model;
mod seam;

pub use group::{Group, Row};
pub use legs::LegsView;
pub use model::Model;
pub use seam::{SeamAt, SeamView};

use egui::{CollapsingHeader, RichText, Ui};
use elbowroom_bending::setup::UNSURE_LEGEND;
use elbowroom_workbench::{Command, SelectMode, Target};

use crate::widgets::{figure, heading};

/// So many bends get a button each; of more one is chosen in the strip or the scene.
const MOST_BUTTONS: usize = 24;

/// Shows the sheet.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    match model.bend {
        Some(bend) => heading(ui, &format!("Forming: bend {}", bend + 1), |_| ()),
        None => heading(ui, "Forming", |_| ()),
    }
    commands.extend(choose(ui, model));
    ui.label(RichText::new(UNSURE_LEGEND).small().weak());
    if let Some(legs) = &model.legs {
        commands.extend(legs::ui(ui, legs));
    }
    for group in &model.of_bend {
        show(ui, group);
    }
    if let Some(seam) = &model.seam {
        commands.extend(seam::ui(ui, seam));
    }
    for group in &model.of_part {
        show(ui, group);
    }
    ui.label(RichText::new("Estimates until a trial bend confirms them.").small().weak());
    commands
}

/// A button for each bend.
fn choose(ui: &mut Ui, model: &Model) -> Vec<Command> {
    if model.bend.is_none() {
        ui.label("Nothing is bent, so bending does nothing to this tube.");
        return Vec::new();
    }
    if model.bends.len() > MOST_BUTTONS {
        ui.label("Select another bend in the strip or the scene.");
        return Vec::new();
    }
    let mut commands = Vec::new();
    ui.horizontal_wrapped(|ui| {
        for &bend in &model.bends {
            let button = ui.selectable_label(model.bend == Some(bend), format!("Bend {}", bend + 1));
            if button.clicked() {
                commands.push(Command::Select(Target::Bend(model.nodes.bend(bend)), SelectMode::Only));
            }
        }
    });
    commands
}

fn show(ui: &mut Ui, group: &Group) {
    CollapsingHeader::new(group.title).default_open(group.open).show(ui, |ui| {
        for row in &group.rows {
            ui.horizontal_top(|ui| {
                let size = egui::vec2(legs::NAMES.min(ui.available_width() * 0.5), 0.0);
                ui.allocate_ui_with_layout(size, egui::Layout::top_down(egui::Align::Min), |ui| {
                    ui.set_min_width(size.x);
                    ui.label(&row.name);
                });
                ui.vertical(|ui| {
                    figure(ui, &row.value, row.ground, &row.note);
                    if row.show_note {
                        ui.label(RichText::new(&row.note).small().weak());
                    }
                });
            });
        }
        if !group.note.is_empty() {
            ui.label(RichText::new(&group.note).small().weak());
        }
    });
}
