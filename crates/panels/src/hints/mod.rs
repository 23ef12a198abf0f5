//! Three hints for the first start, over the lower corner of the scene, until they are put away.

use std::fmt;

use egui::{Align2, Area, Frame, Order, RichText, Ui, vec2};
use elbowroom_workbench::catalogue::verb;
use elbowroom_workbench::{Command, Workbench};

use crate::style::heading_text;

/// What is said to somebody who opens the program for the first time.
pub fn all() -> Vec<String> {
    let list = verb("commands").and_then(|verb| verb.shortcut);
    let list = list.map_or_else(|| "The command list".to_owned(), |shortcut| shortcut.to_string());
    vec![
        "Drag a handle on the tube. The verdict at the upper right follows at once.".to_owned(),
        "Click a finding to see its place on the tube, and why. Its button cures it; undo takes that back.".to_owned(),
        format!("Type into the rows, or drag the edges in the strip below. {list} lists everything there is to do."),
    ]
}

/// The hints.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// One sentence or two each.
    pub hints: Vec<String>,
}

impl Model {
    /// The hints, where they are to be shown.
    pub fn of(workbench: &Workbench) -> Option<Self> {
        workbench.screen().hints_shown.then(|| Self { hints: all() })
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.hints.iter().enumerate().try_for_each(|(index, hint)| writeln!(out, "{}. {hint}", index + 1))
    }
}

/// Shows them in the lower left corner of what `ui` has left.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    let free = ui.available_rect_before_wrap();
    let width = 380.0_f32.min(free.width() - 24.0).max(120.0);
    let area = Area::new(egui::Id::new("hints")).order(Order::Middle).movable(false).pivot(Align2::LEFT_BOTTOM);
    area.fixed_pos(free.left_bottom() + vec2(12.0, -12.0)).constrain(true).show(ui.ctx(), |ui| {
        Frame::window(ui.style()).show(ui, |ui| {
            ui.set_width(width);
            ui.label(RichText::new("To begin with").text_style(heading_text()));
            for (index, hint) in model.hints.iter().enumerate() {
                ui.horizontal_top(|ui| {
                    ui.label(format!("{}.", index + 1));
                    ui.add(egui::Label::new(hint).wrap());
                });
            }
            if ui.button("Put the hints away").clicked() {
                commands.push(Command::DismissHints);
            }
        });
    });
    commands
}
