//! The list of tubes: which there are, what is in the way of each, which one is worked on and which are hidden.

mod model;

use egui::{Button, RichText, Ui};
use elbowroom_bending::{Edit, SystemEdit};
use elbowroom_workbench::Command;

pub use model::{Model, Row};

use crate::widgets::{FieldError, entry_field, give_next_the_keyboard, heading, link, mark, named_row};

/// Width of the names beside the fields, points.
const NAMES: f32 = 84.0;
/// Height of a mark, points.
const MARK: f32 = 14.0;

/// What the list remembers from frame to frame.
#[derive(Debug, Default)]
pub struct State {
    /// How often the keyboard was taken to the name.
    names_given: u32,
    /// Whether the pointer was over the name of a tube.
    was_pointed_at: bool,
}

/// Shows the list.
pub fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = Vec::new();
    heading(ui, "Tubes", |ui| {
        if ui.add(Button::new("Close").small()).on_hover_text("Close the list of tubes").clicked() {
            commands.push(Command::ToggleTubes);
        }
    });
    let pointed_at_before = std::mem::take(&mut state.was_pointed_at);
    for row in &model.tubes {
        let (pointed_at, asked) = tube(ui, row, model.tubes.len());
        commands.extend(asked);
        if pointed_at {
            state.was_pointed_at = true;
            let here = (!row.active).then_some(row.id);
            commands.extend((model.pointed_at != here).then_some(Command::PointAtTube(here)));
        }
    }
    // What another view points at is left alone.
    if pointed_at_before && !state.was_pointed_at && model.pointed_at.is_some() {
        commands.push(Command::PointAtTube(None));
    }
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| commands.extend(buttons(ui, model)));
    ui.add_space(4.0);
    if let Some(active) = model.active() {
        let asked_anew = std::mem::replace(&mut state.names_given, model.names_asked) != model.names_asked;
        let name = named_row(ui, NAMES, "Tube", |ui| {
            if asked_anew {
                give_next_the_keyboard(ui);
            }
            entry_field(ui, "Name of the tube", &active.name, named)
        });
        commands.extend(name.map(|name| Command::EditSystem(SystemEdit::ChangeTube(active.id, Edit::Rename(name)))));
    }
    let name = named_row(ui, NAMES, "Whole", |ui| {
        entry_field(ui, "Name of the whole", &model.name, |text| Ok(text.trim().to_owned()))
    });
    commands.extend(name.map(|name| Command::EditSystem(SystemEdit::Rename(name))));
    ui.add_space(6.0);
    commands
}

/// A name for a tube: any text but none.
fn named(text: &str) -> Result<String, FieldError> {
    match text.trim() {
        "" => Err(FieldError::Refused("A tube needs a name.".to_owned())),
        name => Ok(name.to_owned()),
    }
}

/// One line: the name to turn to it, its worst finding, and whether it is shown; whether the pointer is over the name,
/// and what was asked for.
fn tube(ui: &mut Ui, row: &Row, tubes: usize) -> (bool, Option<Command>) {
    let (mut pointed_at, mut asked) = (false, None);
    ui.horizontal(|ui| {
        let name = RichText::new(row.called());
        let name = if row.pointed_at { name.underline() } else { name };
        let name = if row.hidden { name.weak().italics() } else { name };
        let response = ui.selectable_label(row.active, name).on_hover_text("Work on this tube");
        pointed_at = response.hovered();
        if response.clicked() && !row.active {
            asked = Some(SystemEdit::Activate(row.id));
        }
        if let Some(severity) = row.severity {
            mark(ui, severity, MARK).on_hover_text(format!("Its worst finding is a {}", severity.word()));
        }
        if tubes > 1 {
            let (word, edit) = match row.hidden {
                true => ("Show", SystemEdit::ShowTube(row.id)),
                false => ("Hide", SystemEdit::HideTube(row.id)),
            };
            if link(ui, word, &format!("{} {}", word.to_lowercase(), row.called())).clicked() {
                asked = Some(edit);
            }
        }
    });
    (pointed_at, asked.map(Command::EditSystem))
}

/// What can be done with the list and the tube that is worked on.
fn buttons(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    let Some(active) = model.active() else { return commands };
    if ui.button("Add").on_hover_text("Add a straight piece of the same tube beside this one").clicked() {
        commands.push(Command::AddTube);
    }
    if ui.button("Copy").on_hover_text("Lay a copy of this tube beside it").clicked() {
        commands.push(Command::EditSystem(SystemEdit::DuplicateTube(active.id)));
    }
    let several = model.tubes.len() > 1;
    let remove = ui.add_enabled(several, Button::new("Remove"));
    if remove.on_hover_text("Take this tube out").on_disabled_hover_text("It is the only tube there is").clicked() {
        commands.push(Command::EditSystem(SystemEdit::RemoveTube(active.id)));
    }
    commands
}
