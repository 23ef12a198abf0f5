//! Moves, turns and mirrors by typed figures, and lays the floor: a window over the scene.

mod model;

use egui::{ComboBox, RichText, Ui, Window, vec2};
use elbowroom_bending::{Motion, SystemEdit};
use elbowroom_geometry::units::{LengthUnit, format_angle_exact, parse_angle};
use elbowroom_geometry::{Angle, Length, Point3, Vector3};
use elbowroom_workbench::{Command, Workbench};

pub use model::Model;

use crate::style::heading_text;
use crate::widgets::{FieldError, entry_field, length_field, sized};

/// Width of the window, points.
const WIDTH: f32 = 330.0;
/// Width of a field for a length or an angle, points.
const FIELD: f32 = 92.0;
/// The axes by their letters.
const AXES: [&str; 3] = ["x", "y", "z"];

/// What a turn goes about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum About {
    #[default]
    Middle,
    Start,
    Origin,
}

impl About {
    const ALL: [Self; 3] = [Self::Middle, Self::Start, Self::Origin];

    fn word(self) -> &'static str {
        match self {
            Self::Middle => "its middle",
            Self::Start => "the start",
            Self::Origin => "x, y, z = 0",
        }
    }

    fn point(self, model: &Model) -> Point3<f64> {
        match self {
            Self::Middle => model.middle,
            Self::Start => model.start,
            Self::Origin => Point3::origin(),
        }
    }
}

/// The figures that were typed and wait to be used.
#[derive(Debug)]
pub struct State {
    by: [Length; 3],
    turn: Angle,
    axis: usize,
    about: About,
    plane: usize,
    plane_at: Length,
}

impl Default for State {
    fn default() -> Self {
        // A car is the same on both sides of y = 0, as the program lays it.
        let (by, turn, about) = ([Length::ZERO; 3], Angle::ZERO, About::default());
        Self { by, turn, axis: 2, about, plane: 1, plane_at: Length::ZERO }
    }
}

impl State {
    fn move_by(&self) -> Motion {
        let [x, y, z] = self.by.map(|length| length.mm());
        Motion::By(Vector3::new(x, y, z))
    }

    fn turned(&self, model: &Model) -> Motion {
        Motion::Turned { about: self.about.point(model), axis: unit(self.axis), by: self.turn }
    }

    /// A point of the plane to mirror at, and the direction square to it.
    fn plane(&self) -> (Point3<f64>, Vector3<f64>) {
        let normal = unit(self.plane);
        (Point3::from(normal * self.plane_at.mm()), normal)
    }
}

fn unit(axis: usize) -> Vector3<f64> {
    [Vector3::x(), Vector3::y(), Vector3::z()][axis.min(2)]
}

/// Shows the window; says what was asked for.
pub fn ui(ui: &mut Ui, workbench: &Workbench, state: &mut State) -> Vec<Command> {
    let model = Model::of(workbench);
    let mut commands = Vec::new();
    let mut open = true;
    let free = ui.available_rect_before_wrap();
    let window = Window::new("Move, turn, mirror").id(egui::Id::new("placing")).open(&mut open).collapsible(false);
    window.resizable(false).default_pos(free.left_top() + vec2(12.0, 12.0)).constrain_to(free).show(ui.ctx(), |ui| {
        ui.set_width(WIDTH.min(free.width() - 40.0));
        ui.label(RichText::new(model.what()).text_style(heading_text()));
        commands.extend(figures(ui, workbench, &model, state));
    });
    if !open {
        commands.push(Command::TogglePlacing);
    }
    commands
}

fn figures(ui: &mut Ui, workbench: &Workbench, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = Vec::new();
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        for (axis, letter) in AXES.iter().enumerate() {
            ui.label(*letter);
            let by = sized(ui, FIELD, |ui| length(ui, &format!("Move along {letter} by"), state.by[axis], model.units));
            state.by[axis] = by.unwrap_or(state.by[axis]);
        }
    });
    let moves = state.by.iter().any(|length| length.mm() != 0.0);
    if ui.add_enabled(moves, egui::Button::new("Move by this")).clicked() {
        commands.push(Command::MoveSelection(state.move_by()));
    }
    ui.separator();
    ui.horizontal(|ui| {
        ui.label("Turn by");
        let take = |text: &str| parse_angle(text).map_err(FieldError::from);
        let turn = sized(ui, FIELD, |ui| entry_field(ui, "Angle to turn by", &format_angle_exact(state.turn), take));
        state.turn = turn.unwrap_or(state.turn);
        ui.label("about");
        choice(ui, "Axis to turn about", &mut state.axis, &AXES);
    });
    ui.horizontal(|ui| {
        ui.label("through");
        for about in About::ALL {
            ui.radio_value(&mut state.about, about, about.word());
        }
    });
    if ui.add_enabled(state.turn != Angle::ZERO, egui::Button::new("Turn")).clicked() {
        commands.push(Command::MoveSelection(state.turned(model)));
    }
    ui.separator();
    ui.horizontal(|ui| {
        ui.label("Mirror at the plane");
        choice(ui, "Plane to mirror at", &mut state.plane, &AXES);
        ui.label("=");
        let at = sized(ui, FIELD, |ui| length(ui, "Place of the plane", state.plane_at, model.units));
        state.plane_at = at.unwrap_or(state.plane_at);
    });
    ui.horizontal(|ui| {
        let (through, normal) = state.plane();
        let whole = model.vertices == 0;
        let mirror = ui.add_enabled(whole, egui::Button::new("Mirror"));
        if mirror.on_disabled_hover_text("Only the whole tube can be mirrored: select nothing").clicked() {
            commands.push(Command::MoveSelection(Motion::Mirrored { through, normal }));
        }
        if ui.button("Add a mirrored copy").clicked() {
            let tube = workbench.system().active();
            commands.push(Command::EditSystem(SystemEdit::MirrorTube(tube, through, normal)));
        }
    });
    ui.separator();
    ui.horizontal(|ui| {
        ui.label("Floor at z =");
        let laid = sized(ui, FIELD, |ui| length(ui, "Height of the floor", model.floor, model.units));
        commands.extend(laid.map(|height| Command::EditSystem(SystemEdit::SetFloor(height))));
        if let Some(lowest) = model.lowest
            && ui
                .button("Below the lowest")
                .on_hover_text("Lay it where the lowest tube that is shown touches it")
                .clicked()
        {
            commands.push(Command::EditSystem(SystemEdit::SetFloor(lowest)));
        }
    });
    commands
}

fn length(ui: &mut Ui, label: &str, value: Length, unit: LengthUnit) -> Option<Length> {
    length_field(ui, label, value, unit, |length| match length.is_finite() {
        true => Ok(length),
        false => Err(FieldError::Refused("a length is wanted".to_owned())),
    })
}

fn choice(ui: &mut Ui, label: &str, chosen: &mut usize, words: &[&str]) {
    let shown = ComboBox::from_id_salt(label).width(44.0).selected_text(words[(*chosen).min(words.len() - 1)]);
    shown.show_ui(ui, |ui| {
        for (index, word) in words.iter().enumerate() {
            ui.selectable_value(chosen, index, *word);
        }
    });
}
