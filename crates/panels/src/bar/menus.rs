//! Draws one menu of the bar.

use std::path::Path;

use egui::containers::menu::SubMenuButton;
use egui::{Button, Ui};
use elbowroom_bending::text::capital;
use elbowroom_bending::text::shown_path;
use elbowroom_workbench::catalogue::Group;
use elbowroom_workbench::file::demo_parts;
use elbowroom_workbench::{Command, Theme};

use super::{Entry, Menu, Model};

/// The themes as a menu names them.
const THEMES: [(Theme, &str); 2] = [(Theme::Light, "Light theme"), (Theme::Dark, "Dark theme")];
/// The interface scales that the menu offers.
const SCALES: [f32; 7] = [0.8, 0.9, 1.0, 1.25, 1.5, 1.75, 2.0];

/// Draws a menu.
pub(super) fn menu(ui: &mut Ui, menu: &Menu, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    ui.menu_button(menu.group.label(), |ui| {
        ui.set_min_width(200.0);
        for entry in &menu.entries {
            commands.extend(line(ui, entry));
            if entry.command == Command::AskOpen {
                commands.extend(other_files(ui, model));
            }
        }
        if menu.group == Group::Window {
            commands.extend(looks(ui, model));
        }
    });
    commands
}

/// One line of a menu.
fn line(ui: &mut Ui, entry: &Entry) -> Option<Command> {
    let button = Button::new(&entry.label).selected(entry.on).shortcut_text(entry.shortcut.as_deref().unwrap_or(""));
    let response = ui.add_enabled(entry.enabled, button).on_hover_text(&entry.tooltip);
    if response.clicked() {
        ui.close();
        return Some(entry.command.clone());
    }
    None
}

/// Opens a list at the side.
fn list(ui: &mut Ui, label: &str, content: impl FnOnce(&mut Ui)) {
    // The arrow that egui would put there is in no font of ours.
    SubMenuButton::from_button(Button::new(label).right_text("→")).ui(ui, content);
}

/// The files opened lately, and the demo parts.
fn other_files(ui: &mut Ui, model: &Model) -> Option<Command> {
    let mut chosen = None;
    if !model.recent.is_empty() {
        list(ui, "Open again", |ui| {
            for file in &model.recent {
                let name = shown_path(file.file_name().map_or(file, Path::new));
                if ui.button(name).on_hover_text(shown_path(file)).clicked() {
                    chosen = Some(Command::Open(file.clone()));
                    ui.close();
                }
            }
        });
    }
    list(ui, "Demo parts", |ui| {
        for part in demo_parts() {
            let response = ui.button(title(part.name));
            if response.on_hover_ui(|ui| drop(ui.label(part.purpose()))).clicked() {
                chosen = Some(Command::OpenDemo(part.name.to_owned()));
                ui.close();
            }
        }
    });
    chosen
}

/// The name of a demo part as a menu writes it: `hill-system` is `Hill system`.
fn title(name: &str) -> String {
    capital(&name.replace('-', " "))
}

/// Theme and scale.
fn looks(ui: &mut Ui, model: &Model) -> Option<Command> {
    let mut chosen = None;
    ui.separator();
    for (theme, label) in THEMES {
        if ui.selectable_label(theme == model.theme, label).clicked() {
            chosen = Some(Command::SetTheme(theme));
            ui.close();
        }
    }
    list(ui, "Scale", |ui| {
        for scale in SCALES {
            let here = (scale - model.scale).abs() < 1e-3;
            if ui.selectable_label(here, format!("{:.0} %", scale * 100.0)).clicked() {
                chosen = Some(Command::SetScale(scale));
                ui.close();
            }
        }
    });
    chosen
}
