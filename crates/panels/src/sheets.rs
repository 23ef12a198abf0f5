//! The tabs of the right column: one sheet for laying out, the others for making.

use std::fmt;

use egui::{TextStyle, Ui};
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

/// Space between two tabs, points.
const GAP: f32 = 2.0;
/// The least space between a name and the edge of its tab, points.
const TIGHT: f32 = 1.5;

/// Makes the tabs just so tight that they lie in one line, where that can be had: at a large interface scale
/// they may wrap.
fn fit(ui: &mut Ui) {
    let font = TextStyle::Button.resolve(ui.style());
    let ink = ui.visuals().text_color();
    let width = |sheet: &Sheet| {
        let name = sheet.name().to_owned();
        ui.fonts_mut(|fonts| fonts.layout_no_wrap(name, font.clone(), ink).size().x)
    };
    let names: f32 = Sheet::ALL.iter().map(width).sum();
    let tabs = Sheet::ALL.len() as f32;
    // A point is left over, so that rounding does not wrap the last one.
    let beside = (ui.available_width() - 1.0 - names - GAP * (tabs - 1.0)) / (2.0 * tabs);
    let spacing = ui.spacing_mut();
    spacing.item_spacing.x = GAP;
    if beside >= TIGHT {
        spacing.button_padding.x = spacing.button_padding.x.min(beside);
    }
}

/// Draws the tabs.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    ui.horizontal_wrapped(|ui| {
        fit(ui);
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
