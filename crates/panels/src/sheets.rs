//! The tabs of the right column: one sheet for laying out, the others for making.

use std::fmt;

use egui::Ui;
use elbowroom_workbench::{Command, Sheet, Workbench};

/// What the tabs show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Model {
    /// The sheet on top.
    pub sheet: Sheet,
}

impl Model {
    /// The tabs as they are.
    pub fn of(workbench: &Workbench) -> Self {
        Self { sheet: workbench.screen().sheet }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, sheet) in Sheet::ALL.iter().enumerate() {
            let gap = if index == 0 { "" } else { " | " };
            let name = sheet.name();
            if *sheet == self.sheet { write!(formatter, "{gap}[{name}]")? } else { write!(formatter, "{gap}{name}")? }
        }
        Ok(())
    }
}

/// Draws the tabs.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    ui.horizontal_wrapped(|ui| {
        for sheet in Sheet::ALL {
            let tab = ui.selectable_label(*sheet == model.sheet, sheet.name()).on_hover_text(sheet.purpose());
            if tab.clicked() {
                commands.push(Command::ShowSheet(*sheet));
            }
        }
    });
    ui.separator();
    commands
}
