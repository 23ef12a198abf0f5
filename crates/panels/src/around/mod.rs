//! What stands around the tubes: obstacles with their kind, place and clearance, and the room that is left to each. A window
//! over the scene.

mod model;

use std::sync::Arc;

use egui::{CollapsingHeader, Grid, RichText, Ui, Window, vec2};
use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::{MeshUnit, Obstacle, ObstacleEdit, ObstacleId, Shape, SystemEdit, UpAxis};
use elbowroom_geometry::units::{format_angle, parse_angle};
use elbowroom_geometry::{Angle, Frame, Length, Vector3};
use elbowroom_workbench::{Command, Workbench};

pub use model::{Model, Room};

use crate::style::heading_text;
use crate::widgets::{FieldError, UNSURE, choose, entry_field, heading, legend, length_field, sized};

/// Width of the window, points.
const WIDTH: f32 = 350.0;
/// A name that is longer than this is cut short in the list of rooms, characters.
const LONGEST_NAME: usize = 20;
/// Width of a field, points.
const FIELD: f32 = 84.0;
/// Edge of a box, diameter of a cylinder and a third of its length when it is taken in.
const BEGINS_AT: Length = Length::from_mm(200.0);

/// How a mesh is taken in.
#[derive(Clone, Copy, Debug)]
pub struct State {
    /// The unit it is drawn in.
    unit: MeshUnit,
    /// The axis that points upwards in it.
    up: UpAxis,
}

impl Default for State {
    fn default() -> Self {
        Self { unit: MeshUnit::Millimetre, up: UpAxis::Z }
    }
}

/// Shows the window; says what was asked for.
pub fn ui(ui: &mut Ui, workbench: &Workbench, state: &mut State) -> Vec<Command> {
    let model = Model::of(workbench);
    let mut commands = Vec::new();
    let mut open = true;
    let free = ui.available_rect_before_wrap();
    let window = Window::new("What stands around").id(egui::Id::new("around")).open(&mut open).collapsible(false);
    let at = free.left_top() + vec2(12.0, 12.0);
    let window = window.default_height((free.height() - 60.0).max(160.0)).vscroll(true);
    window.resizable(false).default_pos(at).constrain_to(free).show(ui.ctx(), |ui| {
        ui.set_width(WIDTH.min(free.width() - 40.0));
        commands.extend(content(ui, workbench, &model, state));
    });
    if !open {
        commands.push(Command::ToggleAround);
    }
    commands
}

fn content(ui: &mut Ui, workbench: &Workbench, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = Vec::new();
    rooms(ui, model);
    heading(ui, "Obstacles", |_| ());
    if model.obstacles.is_empty() {
        ui.label(RichText::new("None yet: take in a mesh of the chassis, or lay boxes, cylinders and planes.").weak());
    }
    for obstacle in &model.obstacles {
        commands.extend(one(ui, model, obstacle).into_iter().map(Command::EditSystem));
    }
    ui.horizontal_wrapped(|ui| {
        for (word, shape) in [
            ("Add box", Shape::Cuboid([BEGINS_AT; 3])),
            ("Add cylinder", Shape::Cylinder { diameter: BEGINS_AT, length: BEGINS_AT * 3.0 }),
            ("Add plane", Shape::Plane),
        ] {
            if ui.button(word).clicked() {
                commands.push(Command::EditSystem(SystemEdit::AddObstacle(Arc::new(begun(workbench, shape)))));
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        let hint = "An STL, OBJ or glTF file of what stands there, in this unit and with this axis upwards";
        if ui.button("Take in a mesh\u{2026}").on_hover_text(hint).clicked() {
            commands.push(Command::AskObstacle(state.unit, state.up));
        }
        ui.label("in");
        for (unit, word) in [(MeshUnit::Millimetre, "mm"), (MeshUnit::Inch, "in"), (MeshUnit::Metre, "m")] {
            ui.radio_value(&mut state.unit, unit, word);
        }
        ui.label("up is");
        for (up, word) in [(UpAxis::X, "x"), (UpAxis::Y, "y"), (UpAxis::Z, "z")] {
            ui.radio_value(&mut state.up, up, word);
        }
    });
    legend(ui, model.unsure());
    commands
}

/// The room to everything that is near.
fn rooms(ui: &mut Ui, model: &Model) {
    if model.rooms.is_empty() {
        return;
    }
    heading(ui, "Room left", |_| ());
    Grid::new("rooms").num_columns(3).spacing(vec2(14.0, 3.0)).show(ui, |ui| {
        for word in ["To", "Least", "Wanted"] {
            ui.label(RichText::new(word).small().weak());
        }
        ui.end_row();
        for room in &model.rooms {
            ui.add(egui::Label::new(shortened(&room.to)).extend()).on_hover_text(format!("{}, {}", room.to, room.kind));
            let least = RichText::new(&room.least);
            let least = if room.kept { least } else { least.text_style(heading_text()) };
            // A reason is long, a figure is not torn apart.
            let label = egui::Label::new(least);
            let label = if room.measured { label.extend() } else { label.wrap() };
            ui.add(label).on_hover_text(if room.kept { "Kept" } else { "Not kept" });
            ui.label(&room.wanted);
            ui.end_row();
        }
    });
    ui.add_space(4.0);
}

/// A name as the list has room for it.
fn shortened(name: &str) -> String {
    match name.char_indices().nth(LONGEST_NAME) {
        Some((end, _)) => format!("{}\u{2026}", name[..end].trim_end()),
        None => name.to_owned(),
    }
}

/// An obstacle as it is taken in: below the tube that is worked on, clear of it.
fn begun(workbench: &Workbench, shape: Shape) -> Obstacle {
    let around = workbench.solved().centreline.tube_bounding_box(workbench.part().tube.od.mm());
    let (name, kind) = match shape {
        Shape::Plane => ("Ground", ObstacleKind::Ground),
        Shape::Cylinder { .. } => ("Cylinder", ObstacleKind::Body),
        _ => ("Box", ObstacleKind::Body),
    };
    let mut origin = around.centre();
    origin.z = around.min.z - 2.0 * BEGINS_AT.mm();
    Obstacle {
        id: ObstacleId::new(0),
        name: name.to_owned(),
        shape,
        placement: Frame { origin, ..Frame::world() },
        kind,
        clearance: None,
        hidden: false,
        locked: false,
    }
}

/// One obstacle, folded away until it is asked for.
fn one(ui: &mut Ui, model: &Model, obstacle: &Arc<Obstacle>) -> Vec<SystemEdit> {
    let id = obstacle.id;
    let mut edits = Vec::new();
    let name =
        if obstacle.hidden { RichText::new(&obstacle.name).weak().italics() } else { RichText::new(&obstacle.name) };
    CollapsingHeader::new(name).id_salt(("obstacle", id)).show(ui, |ui| {
        let changes = fields(ui, model, obstacle);
        edits.extend(changes.into_iter().map(|edit| SystemEdit::ChangeObstacle(id, edit)));
        ui.horizontal(|ui| {
            let (mut hidden, mut locked) = (obstacle.hidden, obstacle.locked);
            let hint = "Leaves it out of the scene; it is measured against all the same";
            if ui.checkbox(&mut hidden, "Hidden").on_hover_text(hint).changed() {
                edits.push(SystemEdit::ChangeObstacle(id, ObstacleEdit::SetHidden(hidden)));
            }
            if ui.checkbox(&mut locked, "Locked").on_hover_text("It stays where it stands and as it is").changed() {
                edits.push(SystemEdit::ChangeObstacle(id, ObstacleEdit::SetLocked(locked)));
            }
            if ui.add_enabled(!obstacle.locked, egui::Button::new("Remove")).clicked() {
                edits.push(SystemEdit::RemoveObstacle(id));
            }
        });
    });
    edits
}

fn fields(ui: &mut Ui, model: &Model, obstacle: &Arc<Obstacle>) -> Vec<ObstacleEdit> {
    let mut edits = Vec::new();
    let name = &obstacle.name;
    let length = |ui: &mut Ui, label: &str, value: Length| {
        sized(ui, FIELD, |ui| length_field(ui, &format!("{label} of {name}"), value, model.units, Ok))
    };
    ui.horizontal(|ui| {
        ui.label("Name");
        edits.extend(entry_field(ui, &format!("Name of {name}"), name, named).map(ObstacleEdit::Rename));
    });
    ui.horizontal(|ui| {
        ui.label("Kind");
        let kinds = [
            ObstacleKind::Body,
            ObstacleKind::Wiring,
            ObstacleKind::FuelLine,
            ObstacleKind::Moving { travel: Length::ZERO },
            ObstacleKind::Ground,
        ];
        let choices = kinds.map(|kind| (kind, kind.said().to_owned())).to_vec();
        let now = kinds.into_iter().find(|kind| kind.word() == obstacle.kind.word());
        let label = format!("Kind of {name}");
        edits.extend(
            choose(ui, &label, obstacle.kind.said().to_owned(), now.as_ref(), choices).map(ObstacleEdit::SetKind),
        );
    });
    if let ObstacleKind::Moving { travel } = obstacle.kind {
        ui.horizontal(|ui| {
            ui.label("Comes nearer by");
            let typed = length(ui, "Travel", travel);
            edits.extend(typed.map(|travel| ObstacleEdit::SetKind(ObstacleKind::Moving { travel })));
        });
    }
    ui.horizontal(|ui| {
        ui.label("Keep clear by");
        let wanted = obstacle.kind.wanted(obstacle.clearance);
        let typed = length(ui, "Clearance", Length::from_mm(wanted.clearance_mm));
        edits.extend(typed.map(|clearance| ObstacleEdit::SetClearance(Some(clearance))));
        match (obstacle.clearance, wanted.basis.is_some_and(|ground| ground.unsure())) {
            (Some(_), _) if ui.button("As usual").on_hover_text("What is usual for its kind").clicked() => {
                edits.push(ObstacleEdit::SetClearance(None));
            }
            (None, true) => {
                ui.label(format!("{UNSURE} common practice"));
            }
            _ => {}
        }
    });
    edits.extend(shape(ui, obstacle, &length));
    ui.horizontal(|ui| {
        ui.label("At");
        for axis in 0..3 {
            let at = Length::from_mm(obstacle.placement.origin[axis]);
            if let Some(to) = length(ui, ["x", "y", "z"][axis], at) {
                let mut placement = obstacle.placement;
                placement.origin[axis] = to.mm();
                edits.push(ObstacleEdit::Place(placement));
            }
        }
    });
    ui.horizontal(|ui| {
        ui.label("Turn by");
        for (axis, letter) in ["x", "y", "z"].into_iter().enumerate() {
            let take = |text: &str| parse_angle(text).map_err(FieldError::from);
            let label = format!("Turn of {name} about {letter}");
            ui.label(letter);
            let by = sized(ui, FIELD, |ui| entry_field(ui, &label, &format_angle(Angle::ZERO, 0), take));
            edits.extend(by.map(|by| ObstacleEdit::Place(turned(&obstacle.placement, axis, by))));
        }
    });
    edits
}

/// The sizes of a typed shape; the file of a mesh.
fn shape(
    ui: &mut Ui,
    obstacle: &Obstacle,
    length: &impl Fn(&mut Ui, &str, Length) -> Option<Length>,
) -> Option<ObstacleEdit> {
    let mut changed = None;
    match &obstacle.shape {
        Shape::Cuboid(size) => {
            ui.horizontal(|ui| {
                ui.label("Size");
                for axis in 0..3 {
                    if let Some(edge) = length(ui, ["Length", "Width", "Height"][axis], size[axis]) {
                        let mut size = *size;
                        size[axis] = edge;
                        changed = Some(Shape::Cuboid(size));
                    }
                }
            });
        }
        Shape::Cylinder { diameter, length: long } => {
            ui.horizontal(|ui| {
                ui.label("Diameter");
                let typed = length(ui, "Diameter", *diameter);
                changed = typed.map(|diameter| Shape::Cylinder { diameter, length: *long });
                ui.label("Length");
                let typed = length(ui, "Length", *long);
                changed = typed.map(|length| Shape::Cylinder { diameter: *diameter, length }).or(changed.take());
            });
        }
        Shape::Plane => {
            ui.label(RichText::new("Everything below its own z = 0.").small().weak());
        }
        Shape::Mesh(source) => {
            let packed = if source.packed.is_some() { ", packed in" } else { "" };
            ui.label(RichText::new(format!("{}{packed}", source.file)).small().weak());
        }
    }
    changed.map(ObstacleEdit::Reshape)
}

/// A placement turned about an axis of the drawing through its own place.
fn turned(placement: &Frame, axis: usize, by: Angle) -> Frame {
    let about = [Vector3::x(), Vector3::y(), Vector3::z()][axis.min(2)];
    let turn = |direction: &Vector3<f64>| {
        // Rodrigues' rotation of a vector about an axis of length 1.
        let (sin, cos) = by.radians().sin_cos();
        direction * cos + about.cross(direction) * sin + about * about.dot(direction) * (1.0 - cos)
    };
    Frame { origin: placement.origin, tangent: turn(&placement.tangent), normal: turn(&placement.normal) }
}

fn named(text: &str) -> Result<String, FieldError> {
    match text.trim() {
        "" => Err(FieldError::Refused("An obstacle needs a name.".to_owned())),
        name => Ok(name.to_owned()),
    }
}
