//! The menu of what is selected, where it was asked for: in the scene, in the rows and on the strip alike.

use std::fmt;

use egui::{Area, Button, Context, Frame, Id, Key, Modifiers, Order, Pos2, RichText, Ui};
use elbowroom_bending::{Edit, End};
use elbowroom_workbench::catalogue::{Verb, verb};
use elbowroom_workbench::{Command, Target, Workbench};

use crate::colours::{colour, colours};

/// What can be done with what is selected.
const WITH_SELECTED: [&str; 3] = ["delete", "frame-selection", "place"];
/// What can be done with the whole tube.
const WITH_TUBE: [&str; 7] =
    ["select-all", "copy-tube", "swap-ends", "vertices-or-rows", "hide-tube", "frame-all", "bend-numbers"];
/// Width of the menu, points.
const WIDTH: f32 = 230.0;

/// A line of the menu.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it says.
    pub label: String,
    /// Its key, where it has one.
    pub key: String,
    /// Whether it would do anything now.
    pub enabled: bool,
    /// What it asks for.
    pub command: Command,
}

/// The menu.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// What it is about, such as `Bend 2`.
    pub about: String,
    /// What can be done with that; empty where nothing is selected.
    pub with_selected: Vec<Line>,
    /// What can be done with the tube.
    pub with_tube: Vec<Line>,
}

impl Model {
    /// The menu for what is selected now.
    pub fn of(workbench: &Workbench) -> Self {
        let line = |id: &&str| verb(id).map(|verb| line_of(verb, workbench));
        let selected = workbench.selection().targets();
        let with_selected = WITH_SELECTED.iter().filter(|_| !selected.is_empty()).filter_map(line).collect();
        let mut with_tube: Vec<Line> = WITH_TUBE.iter().filter_map(line).collect();
        let (other, word) = match workbench.part().tooling.from {
            End::Start => (End::Finish, "finish"),
            End::Finish => (End::Start, "start"),
        };
        with_tube.push(Line {
            label: format!("Bend from the {word} first"),
            key: String::new(),
            enabled: true,
            command: Command::Edit(Edit::BendFrom(other)),
        });
        Self { about: about(selected, workbench.part().name.trim()), with_selected, with_tube }
    }
}

/// What the menu is about.
fn about(selected: &[Target], name: &str) -> String {
    match selected {
        [] => name.to_owned(),
        [Target::Straight(straight)] => format!("Straight {}", straight + 1),
        [Target::Bend(bend)] => format!("Bend {}", bend + 1),
        [Target::Vertex(vertex)] => format!("Vertex {}", vertex + 1),
        [Target::Handle(elbowroom_geometry::HandleId::Start)] => "Start".to_owned(),
        [Target::Handle(elbowroom_geometry::HandleId::Finish)] => "Finish".to_owned(),
        [handle @ Target::Handle(_)] => handle.bend().map_or_else(String::new, |bend| format!("Bend {}", bend + 1)),
        several => format!("{} selected", several.len()),
    }
}

fn line_of(verb: &Verb, workbench: &Workbench) -> Line {
    Line {
        label: verb.label_now(workbench),
        key: verb.shortcut.map_or_else(String::new, |shortcut| shortcut.to_string()),
        enabled: verb.enabled(workbench),
        command: verb.command(workbench),
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}", self.about)?;
        for line in self.with_selected.iter().chain(&self.with_tube) {
            writeln!(out, "{}{}", line.label, if line.enabled { "" } else { " (not now)" })?;
        }
        Ok(())
    }
}

fn wish() -> Id {
    Id::new("a menu is asked for here")
}

/// Asks for the menu at a place, in points, of what is selected by the time it is drawn.
pub fn ask(context: &Context, at: Pos2) {
    context.data_mut(|data| data.insert_temp(wish(), at));
}

/// What the menu remembers.
#[derive(Debug, Default)]
pub struct State {
    open: Option<Pos2>,
}

/// Draws the menu where one is open.
pub fn ui(ui: &mut Ui, workbench: &Workbench, state: &mut State) -> Vec<Command> {
    let context = ui.ctx().clone();
    let asked: Option<Pos2> = context.data_mut(|data| data.remove_temp(wish()));
    state.open = asked.or(state.open);
    let Some(at) = state.open else { return Vec::new() };
    let model = Model::of(workbench);
    let mut commands = Vec::new();
    let area = Area::new(Id::new("menu of what is here")).order(Order::Foreground).fixed_pos(at).constrain(true);
    let shown = area.show(&context, |ui| {
        Frame::menu(ui.style()).show(ui, |ui| {
            ui.set_width(WIDTH);
            ui.label(RichText::new(&model.about).small().color(colour(colours(ui).weak_text)));
            for (index, lines) in [&model.with_selected, &model.with_tube].into_iter().enumerate() {
                if index > 0 && !model.with_selected.is_empty() {
                    ui.separator();
                }
                commands.extend(lines.iter().filter_map(|line| choice(ui, line)));
            }
        });
    });
    let escaped = context.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
    let pressed_beside = context.input(|input| {
        input.pointer.any_pressed() && input.pointer.interact_pos().is_none_or(|at| !shown.response.rect.contains(at))
    });
    if !commands.is_empty() || escaped || pressed_beside && asked.is_none() {
        state.open = None;
    }
    commands
}

fn choice(ui: &mut Ui, line: &Line) -> Option<Command> {
    let button = Button::new(&line.label).shortcut_text(&line.key).min_size(egui::vec2(WIDTH, 0.0)).frame(false);
    ui.add_enabled(line.enabled, button).clicked().then(|| line.command.clone())
}
