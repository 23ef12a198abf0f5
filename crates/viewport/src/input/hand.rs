//! The hand on mouse and keys, without an engine: what it does over the scene becomes commands and a moved eye.

use bevy::math::Vec2;
use bevy::prelude::Resource;
use elbowroom_bending::{Edit, Motion, NodeId, SystemEdit, TubeId};
use elbowroom_geometry::{Length, Point3};
use elbowroom_workbench::{Command, SelectMode, Target, vertices_under};

use super::nudge::nudge;
use super::{Around, Box2};
use crate::camera::Eye;
use crate::drag::{Constraint, Drag, Keys, neighbours};
use crate::pick::{Hit, Knob, in_reach, pick};

/// So far the pointer may tremble between press and release, logical pixels.
const TREMBLE_PIXELS: f32 = 3.0;
/// Two clicks within this time are one double click, seconds. Common practice, no source.
const DOUBLE_CLICK_S: f64 = 0.45;
/// Turn of the eye for a pixel of pointer, rad: a hand's breadth of 600 pixels is a little over half a turn.
const TURN_RAD: f64 = 0.006;
/// What one notch of the wheel does to the distance.
const NOTCH: f64 = 0.86;
/// A vertex that was added is found again this near to where it was asked for, mm.
const ADDED_MM: f64 = 1e-3;

/// A button of the mouse that means something here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Button {
    /// Picks and drags.
    Left,
    /// Turns the eye, and pans it with shift.
    Turn,
}

/// One thing that mouse or keys did.
#[derive(Clone, Debug, PartialEq)]
pub enum Act {
    /// The pointer went to a place in the window, logical pixels.
    Moved(Vec2),
    /// A button was pressed.
    Down(Button),
    /// A button was released.
    Up(Button),
    /// The wheel was turned by so many notches; positive is nearer.
    Wheel(f64),
    /// An arrow key was pressed: so many steps to the right and up in the picture.
    Arrow(i8, i8),
    /// The key of an axis was pressed or released.
    Axis(usize, bool),
    /// Text was typed.
    Text(String),
    /// Backspace.
    Erase,
    /// Enter.
    Enter,
    /// Escape.
    Escape,
    /// The window lost the keyboard.
    FocusLost,
}

/// What the hand has come up with in a frame.
#[derive(Debug, Default)]
pub struct Outcome {
    /// Commands, in order.
    pub wishes: Vec<Command>,
    /// The eye, where it has moved.
    pub eye: Option<Eye>,
    /// Whether keys belonged to a drag, so that nobody else should act on them.
    pub keys_taken: bool,
    /// Where in the window a menu was asked for, logical pixels.
    pub menu: Option<Vec2>,
}

/// What was meant by a press, by its id: the release comes frames later.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Meant {
    Part(Target<NodeId>),
    Other(TubeId),
}

#[derive(Debug, Default)]
enum Grasp {
    #[default]
    Nothing,
    Pressed {
        at: Vec2,
        on: Option<Meant>,
    },
    /// A vertex was asked for by a double click and the button is still down: it can be dragged once it is there.
    Adding {
        at: Vec2,
        point: Point3<f64>,
    },
    Dragging(Box<Drag>),
    /// A box is drawn from where the pointer was pressed, beside every tube.
    Boxing {
        from: Vec2,
    },
    Turning {
        at: Vec2,
        turned: bool,
    },
}

/// What the hand holds from frame to frame.
#[derive(Resource, Debug, Default)]
pub struct Hand {
    pointer: Option<Vec2>,
    grasp: Grasp,
    axis: Option<usize>,
    last_click: Option<(f64, Vec2, Target<NodeId>)>,
    /// What was last said to lie under the pointer.
    hovered: Option<Target<NodeId>>,
    /// The tube beside the one that is worked on over which the pointer is, and where on it.
    over: Option<(TubeId, Point3<f64>)>,
    /// The change last previewed by the drag in progress.
    previewed: Option<Edit>,
    /// The vertices that move with what is dragged, each with where it was, mm; none where it moves alone.
    together: Vec<(NodeId, Point3<f64>)>,
}

impl Hand {
    /// The drag in progress.
    pub fn drag(&self) -> Option<&Drag> {
        match &self.grasp {
            Grasp::Dragging(drag) => Some(drag),
            _ => None,
        }
    }

    /// The box that is drawn, while one is.
    pub fn boxed(&self) -> Option<Box2> {
        match self.grasp {
            Grasp::Boxing { from } => self.pointer.map(|to| Box2::between(from, to)),
            _ => None,
        }
    }

    /// The tube beside the one that is worked on over which the pointer is, and where on it.
    pub fn over(&self) -> Option<(TubeId, Point3<f64>)> {
        self.over
    }

    /// Takes what happened in a frame, in order.
    pub fn frame(&mut self, acts: impl IntoIterator<Item = Act>, mut around: Around) -> Outcome {
        let mut outcome = Outcome { keys_taken: self.drag().is_some(), ..Outcome::default() };
        self.hold_added(&around, &mut outcome);
        for act in acts {
            self.act(act, &mut around, &mut outcome);
        }
        self.follow_drag(&around, &mut outcome);
        self.hover(&around, &mut outcome);
        outcome.keys_taken |= self.drag().is_some();
        outcome
    }

    fn act(&mut self, act: Act, around: &mut Around, outcome: &mut Outcome) {
        match act {
            Act::Moved(to) => self.moved(to, around, outcome),
            Act::Down(button) => self.down(button, around, outcome),
            Act::Up(Button::Left) => self.up(around, outcome),
            Act::Up(Button::Turn) => self.end_turn(around, outcome),
            Act::Arrow(right, up) => {
                if self.drag().is_none() && around.area().arrows_free && !around.selection.targets().is_empty() {
                    let by = nudge(&around.view.eye, right, up, around.shift);
                    outcome.wishes.push(Command::MoveSelection(Motion::By(by)));
                }
            }
            Act::Wheel(notches) => self.wheel(notches, around, outcome),
            Act::Axis(axis, true) => self.axis = Some(axis),
            Act::Axis(axis, false) => self.axis = self.axis.filter(|held| *held != axis),
            Act::FocusLost => {
                self.axis = None;
                self.drop_drag(outcome);
                self.grasp = Grasp::Nothing;
            }
            Act::Escape => {
                if matches!(self.grasp, Grasp::Boxing { .. }) {
                    self.grasp = Grasp::Nothing;
                }
                self.drop_drag(outcome);
            }
            Act::Enter => self.finish_drag(around, outcome),
            Act::Text(text) => {
                if let (Grasp::Dragging(drag), true) = (&mut self.grasp, around.area().keyboard_free) {
                    drag.type_text(&text);
                }
            }
            Act::Erase => {
                if let Grasp::Dragging(drag) = &mut self.grasp {
                    drag.erase();
                }
            }
        }
    }

    fn moved(&mut self, to: Vec2, around: &mut Around, outcome: &mut Outcome) {
        let from = self.pointer.replace(to).unwrap_or(to);
        match self.grasp {
            Grasp::Turning { at, turned } => {
                if !turned && at.distance(to) <= TREMBLE_PIXELS {
                    return;
                }
                self.grasp = Grasp::Turning { at, turned: true };
                let (x, y) = (f64::from(to.x - from.x), f64::from(to.y - from.y));
                let mut eye = around.view.eye;
                if around.shift {
                    let mm = around.view.pixel_mm(&eye.focus).unwrap_or(0.0);
                    eye.focus += (eye.up() * y - eye.right() * x) * mm;
                } else {
                    eye = eye.orbited(-x * TURN_RAD, y * TURN_RAD);
                }
                around.view.eye = eye;
                outcome.eye = Some(eye);
            }
            Grasp::Pressed { at, on: Some(Meant::Part(target)) } if at.distance(to) > TREMBLE_PIXELS => {
                let nodes = &around.solved.nodes;
                if let Some(knob) = around.knobs.iter().find(|knob| knob.target.named(nodes) == target) {
                    self.take_hold(*knob, at, around, outcome);
                } else if let Some(knob) = straight_at(at, around) {
                    self.take_hold(knob, at, around, outcome);
                }
            }
            Grasp::Pressed { at, on: None } if at.distance(to) > TREMBLE_PIXELS => {
                self.grasp = Grasp::Boxing { from: at };
            }
            _ => {}
        }
    }

    /// Takes hold of the vertex that a double click has added since.
    fn hold_added(&mut self, around: &Around, outcome: &mut Outcome) {
        let Grasp::Adding { at, point } = self.grasp else { return };
        let away = |knob: &Knob| (knob.at - point).norm();
        let nearest = around.knobs.iter().min_by(|a, b| away(a).total_cmp(&away(b)));
        let Some(knob) = nearest.copied().filter(|knob| away(knob) <= ADDED_MM) else {
            self.grasp = Grasp::Nothing;
            return;
        };
        self.grasp = Grasp::Pressed { at, on: Some(Meant::Part(knob.target.named(&around.solved.nodes))) };
        if self.pointer.is_some_and(|pointer| pointer.distance(at) > TREMBLE_PIXELS) {
            self.take_hold(knob, at, around, outcome);
        }
    }

    fn take_hold(&mut self, knob: Knob, at: Vec2, around: &Around, outcome: &mut Outcome) {
        let beside = neighbours(around.part, around.solved, around.knobs, &knob);
        let drag = Drag::new(knob, &around.solved.nodes, beside, &around.view, at, around.part.units);
        self.grasp = Grasp::Dragging(Box::new(drag));
        self.previewed = None;
        self.together = together(&knob, around);
        outcome.keys_taken = true;
        if !around.selection.contains(knob.target) {
            outcome.wishes.push(Command::Select(knob.target.named(&around.solved.nodes), SelectMode::Only));
        }
    }

    fn down(&mut self, button: Button, around: &Around, outcome: &mut Outcome) {
        let (Some(pointer), Grasp::Nothing) = (self.pointer, &self.grasp) else { return };
        if !around.has(pointer) {
            return;
        }
        self.grasp = match button {
            Button::Left => {
                let hit = pick_around(pointer, around);
                match hit.and_then(|hit| self.asks_for_vertex(pointer, &hit, around)) {
                    Some((straight, point)) => {
                        self.last_click = None;
                        let edit = Edit::InsertVertex(
                            around.solved.nodes.straight(straight),
                            point,
                            usual_clr(around, straight),
                        );
                        outcome.wishes.push(Command::Edit(edit));
                        Grasp::Adding { at: pointer, point }
                    }
                    None => Grasp::Pressed { at: pointer, on: hit.map(|hit| meant(hit, around)) },
                }
            }
            Button::Turn => Grasp::Turning { at: pointer, turned: false },
        };
    }

    /// The straight and the point at which a press asks for a vertex: the second press of a double click there.
    fn asks_for_vertex(&self, at: Vec2, hit: &Hit, around: &Around) -> Option<(usize, Point3<f64>)> {
        let (when_s, place, what) = self.last_click?;
        let (Hit::Tube(tube), Some(Target::Straight(straight))) = (hit, hit.target()) else { return None };
        let twice = what.counted(&around.solved.nodes) == hit.target()
            && around.now_s - when_s < DOUBLE_CLICK_S
            && place.distance(at) < 2.0 * TREMBLE_PIXELS;
        twice.then(|| (straight, below(at, straight, around).unwrap_or(tube.on_centreline)))
    }

    fn up(&mut self, around: &Around, outcome: &mut Outcome) {
        self.finish_drag(around, outcome);
        if let Some(boxed) = self.boxed() {
            self.grasp = Grasp::Nothing;
            return select_within(&boxed, around, outcome);
        }
        if matches!(self.grasp, Grasp::Adding { .. }) {
            self.grasp = Grasp::Nothing;
        }
        let Grasp::Pressed { at, on } = self.grasp else { return };
        self.grasp = Grasp::Nothing;
        self.last_click = None;
        if self.pointer.is_some_and(|pointer| pointer.distance(at) > TREMBLE_PIXELS) {
            return;
        }
        let Some(on) = on else {
            // A click beside the tube lets go of what is selected; with a key that adds one only missed what was meant.
            if !around.adds() && !around.selection.targets().is_empty() {
                outcome.wishes.push(Command::SelectNothing);
            }
            return;
        };
        let target = match on {
            Meant::Part(target) => target,
            // Something was to be added to what is selected, and nothing of another tube can be.
            Meant::Other(_) if around.adds() => return,
            Meant::Other(tube) => return outcome.wishes.push(Command::EditSystem(SystemEdit::Activate(tube))),
        };
        self.last_click = Some((around.now_s, at, target));
        let mode = if around.adds() { SelectMode::Toggle } else { SelectMode::Only };
        outcome.wishes.push(Command::Select(target, mode));
    }

    /// The button that turns the eye was let go: where it turned nothing a menu is meant, of what lies there.
    fn end_turn(&mut self, around: &Around, outcome: &mut Outcome) {
        let Grasp::Turning { at, turned } = self.grasp else { return };
        self.grasp = Grasp::Nothing;
        if turned {
            return;
        }
        outcome.menu = Some(at);
        let target = pick_around(at, around).and_then(|hit| hit.target());
        if let Some(target) = target.filter(|target| !around.selection.contains(*target)) {
            outcome.wishes.push(Command::Select(target.named(&around.solved.nodes), SelectMode::Only));
        }
    }

    fn wheel(&mut self, notches: f64, around: &mut Around, outcome: &mut Outcome) {
        let Some(pointer) = self.pointer.filter(|pointer| around.has(*pointer)) else { return };
        let about = match pick_around(pointer, around) {
            Some(Hit::Tube(hit) | Hit::Other(_, hit)) => around.view.ray(pointer).at(hit.distance_mm),
            Some(Hit::Knob(knob)) => knob.at,
            None => around.view.facing(pointer, &around.view.eye.focus),
        };
        let eye = around.view.eye.zoomed(&about, NOTCH.powf(notches));
        around.view.eye = eye;
        outcome.eye = Some(eye);
    }

    fn follow_drag(&mut self, around: &Around, outcome: &mut Outcome) {
        let (Grasp::Dragging(drag), Some(pointer)) = (&mut self.grasp, self.pointer) else { return };
        let constraint = match (self.axis, around.shift) {
            (None, _) => Constraint::Facing,
            (Some(axis), false) => Constraint::Along(axis),
            (Some(axis), true) => Constraint::Across(axis),
        };
        drag.follow(&around.view, pointer, Keys { constraint, snap: around.snap });
        let edit = match self.together.as_slice() {
            [] => drag.edit(),
            several => {
                let by = drag.at - drag.knob.at;
                Some(Edit::MoveVertices(several.iter().map(|(id, from)| (*id, from + by)).collect()))
            }
        };
        if edit != self.previewed
            && let Some(edit) = edit
        {
            self.previewed = Some(edit.clone());
            outcome.wishes.push(Command::Preview(edit));
        }
    }

    fn finish_drag(&mut self, around: &Around, outcome: &mut Outcome) {
        if self.drag().is_none() {
            return;
        }
        self.follow_drag(around, outcome);
        self.grasp = Grasp::Nothing;
        if self.previewed.take().is_some() {
            outcome.wishes.push(Command::CommitPreview);
        }
    }

    fn drop_drag(&mut self, outcome: &mut Outcome) {
        if self.drag().is_some() {
            self.grasp = Grasp::Nothing;
            if self.previewed.take().is_some() {
                outcome.wishes.push(Command::DropPreview);
            }
        }
    }

    /// Says what lies under the pointer, once for every change; what another view points at is left alone.
    fn hover(&mut self, around: &Around, outcome: &mut Outcome) {
        let (here, over) = match &self.grasp {
            Grasp::Dragging(drag) => (Some(drag.target), None),
            Grasp::Turning { .. } | Grasp::Boxing { .. } => return,
            Grasp::Nothing | Grasp::Pressed { .. } | Grasp::Adding { .. } => {
                let pointer = self.pointer.filter(|pointer| around.has(*pointer));
                match pointer.and_then(|pointer| pick_around(pointer, around)) {
                    Some(Hit::Other(tube, hit)) => (None, Some((tube, hit.on_centreline))),
                    hit => (hit.and_then(|hit| hit.target()).map(|target| target.named(&around.solved.nodes)), None),
                }
            }
        };
        if here != self.hovered {
            self.hovered = here;
            outcome.wishes.push(Command::Hover(here));
        }
        let (tube, before) = (over.map(|(tube, _)| tube), self.over.map(|(tube, _)| tube));
        self.over = over;
        if tube != before {
            outcome.wishes.push(Command::PointAtTube(tube));
        }
    }
}

/// The point of a straight that lies below a place in the window, or as near to it as the straight comes.
fn below(at: Vec2, straight: usize, around: &Around) -> Option<Point3<f64>> {
    let element = around.solved.centreline.straight(straight)?;
    let along_mm = around.view.ray(at).nearest_on_line(&element.start.origin, &element.start.tangent)?;
    Some(element.start.origin + element.start.tangent * along_mm.clamp(0.0, element.length_mm.max(0.0)))
}

/// The straight below a place in the window, as something to take hold of; `None` where none lies there.
fn straight_at(at: Vec2, around: &Around) -> Option<Knob> {
    let Some(Hit::Tube(hit)) = pick_around(at, around) else { return None };
    let target = hit.target();
    matches!(target, Target::Straight(_)).then_some(Knob { target, at: hit.on_centreline, slides_along: None })
}

/// The vertices that move with what is taken hold of: those of a straight, and all that are selected where it is one of
/// them. What slides, and a vertex by itself, moves alone.
fn together(knob: &Knob, around: &Around) -> Vec<(NodeId, Point3<f64>)> {
    let under = |targets: &[Target]| vertices_under(around.part, around.solved, targets);
    if knob.slides_along.is_some() {
        return Vec::new();
    }
    let selected = around.selection.targets();
    let with_bend = knob.target.bend().map(Target::Bend);
    let is_selected = selected.iter().any(|target| *target == knob.target || Some(*target) == with_bend);
    let vertices = if is_selected { under(selected) } else { under(&[knob.target]) };
    let alone = vertices.len() < 2 && !matches!(knob.target, Target::Straight(_));
    if alone { Vec::new() } else { vertices }
}

/// Selects every handle and vertex whose middle lies within a box, and with them their bends; with a key that adds, beside
/// what is selected.
fn select_within(boxed: &Box2, around: &Around, outcome: &mut Outcome) {
    let within = around.knobs.iter().filter(|knob| {
        // A bend of half a turn has two handles and no vertex.
        around.view.project(&knob.at).is_some_and(|at| boxed.has(at))
    });
    let meant = within.map(|knob| knob.target.bend().map_or(knob.target, Target::Bend));
    let mut targets: Vec<Target<NodeId>> = meant.map(|target| target.named(&around.solved.nodes)).collect();
    targets.dedup();
    // A box around nothing was a slip: what is selected stays.
    if !targets.is_empty() {
        let mode = if around.adds() { SelectMode::Add } else { SelectMode::Only };
        outcome.wishes.push(Command::SelectThese(targets, mode));
    }
}

/// What a press there means.
fn meant(hit: Hit, around: &Around) -> Meant {
    match hit {
        Hit::Other(tube, _) => Meant::Other(tube),
        Hit::Knob(knob) => Meant::Part(knob.target.named(&around.solved.nodes)),
        Hit::Tube(hit) => Meant::Part(hit.target().named(&around.solved.nodes)),
    }
}

/// What of all that surrounds the hand lies below a place in the window.
fn pick_around(at: Vec2, around: &Around) -> Option<Hit> {
    let shown = in_reach(around.knobs, &around.view, around.selection, around.hover);
    pick(&around.view, at, &shown, around.part, around.solved, around.others)
}

/// The radius for a vertex that is added on a straight: that of the bend beside it, else what the shop has for
/// this tube, else one and a half diameters (common practice, no source).
fn usual_clr(around: &Around, straight: usize) -> Length {
    let rows = around.solved.form.path.rows();
    let beside = straight.checked_sub(1).and_then(|bend| rows.get(bend)).or(rows.get(straight));
    let od = around.part.tube.od;
    let in_shop = || around.shop.die_sets.iter().find(|die| die.takes(od)).map(|die| die.clr);
    beside.map(|row| row.clr).or_else(in_shop).unwrap_or(od * 1.5)
}
