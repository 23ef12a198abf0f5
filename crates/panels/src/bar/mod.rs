//! The slim bar on top: menus, undo and redo with what they undo, the part's name, units, bench, command
//! list, help. Every verb comes from the workbench's catalogue.

mod menus;
mod model;

use egui::{Align, Button, Layout, MenuBar, RichText, Ui};
use elbowroom_bending::Edit;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::Command;

pub use model::{Entry, Menu, Model};

/// Below this width of the bar the steps that undo and redo name are told by tooltip alone, points.
const ROOM_FOR_NAMES: f32 = 1000.0;

/// Draws the bar.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    let roomy = ui.available_width() >= ROOM_FOR_NAMES;
    MenuBar::new().ui(ui, |ui| {
        for menu in &model.menus {
            commands.extend(menus::menu(ui, menu, model));
        }
        ui.separator();
        commands.extend(step(ui, &model.undo, roomy));
        commands.extend(step(ui, &model.redo, roomy));
        ui.separator();
        commands.extend(units(ui, model, roomy));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            for entry in &model.at_the_end {
                // What finds no room stands in the menus as well.
                if ui.available_width() < widths::button(ui, &entry.short) {
                    break;
                }
                let button = Button::new(&entry.short).selected(entry.on);
                let response = ui.add(button).on_hover_text(format!("{}: {}", entry.label, hint(entry)));
                if response.clicked() {
                    commands.push(entry.command.clone());
                }
            }
            if roomy {
                name(ui, model);
            }
        });
    });
    commands
}

/// Undo or redo: what it would do stands on it, or in its tooltip where there is no room.
fn step(ui: &mut Ui, entry: &Entry, roomy: bool) -> Option<Command> {
    let text = if roomy { &entry.label } else { &entry.short };
    let response = ui.add_enabled(entry.enabled, Button::new(text).truncate());
    let response = response.on_hover_text(format!("{}. {}", entry.label, hint(entry)));
    response.clicked().then(|| entry.command.clone())
}

/// What an entry does, and its key.
fn hint(entry: &Entry) -> String {
    match &entry.shortcut {
        Some(shortcut) => format!("{} ({shortcut})", entry.tooltip),
        None => entry.tooltip.clone(),
    }
}

/// The unit of lengths, and the ones it could be.
fn units(ui: &mut Ui, model: &Model, roomy: bool) -> Option<Command> {
    let mut chosen = None;
    let symbol = model.unit.symbol();
    let text = if roomy { format!("Lengths: {symbol}") } else { symbol.to_owned() };
    let button = ui.menu_button(text, |ui| {
        for unit in LengthUnit::ALL {
            if ui.selectable_label(unit == model.unit, unit.name()).clicked() {
                chosen = Some(Command::Edit(Edit::ShowUnits(unit)));
                ui.close();
            }
        }
    });
    button.response.on_hover_text("The unit in which lengths are shown and typed");
    chosen
}

/// The part's name, and whether it is in its file.
fn name(ui: &mut Ui, model: &Model) {
    ui.add_space(8.0);
    if model.unsaved {
        ui.label(RichText::new("not saved").small().weak());
    }
    ui.add(egui::Label::new(RichText::new(&model.name).strong()).truncate());
}

/// How much room things take.
mod widths {
    use egui::{TextStyle, Ui};

    /// The width of a button with a text, and the gap beside it.
    pub fn button(ui: &Ui, text: &str) -> f32 {
        let font = TextStyle::Button.resolve(ui.style());
        let colour = ui.visuals().text_color();
        let text = ui.fonts_mut(|fonts| fonts.layout_no_wrap(text.to_owned(), font, colour).size().x);
        text + 2.0 * ui.spacing().button_padding.x + ui.spacing().item_spacing.x
    }
}
