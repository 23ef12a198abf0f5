//! What pointer and keys do on the strip.

use egui::{
    CursorIcon, EventFilter, Id, Key, Modifiers, PointerButton, Rangef, Rect, Response, Sense, Ui, WidgetInfo,
    WidgetType,
};
use elbowroom_bending::text::capital;
use elbowroom_bending::{Edit, NodeId};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::{Command, SelectMode, Target};

use crate::here_menu;

use super::edges::{Drag, Edge, round_length_mm};
use super::held::Held;
use super::lanes::Lanes;
use super::model::Model;
use super::plan::Plan;
use super::scale::Scale;

/// How far beside an edge it can be taken hold of, points.
const REACH: f32 = 5.0;
/// Pieces shorter than this cannot be pointed at, points.
const LEAST_HELD: f32 = 1.0;
/// What one press of plus or minus turns a bend by, degrees.
const KEY_DEGREES: f64 = 1.0;

/// One frame of pointer and keys.
pub struct Hands<'a> {
    pub(super) ui: &'a mut Ui,
    pub(super) model: &'a Model,
    pub(super) plan: Plan,
    pub(super) held: &'a mut Held,
    pub(super) commands: Vec<Command>,
    pub(super) hovered: Option<Target<NodeId>>,
}

impl Hands<'_> {
    fn id(&self, what: impl std::hash::Hash + std::fmt::Debug) -> Id {
        self.ui.id().with(("blank strip", what))
    }

    fn select(&mut self, target: Target<NodeId>) {
        // As in the rows and in the scene, either key adds.
        let adds = self.ui.input(|input| input.modifiers.shift || input.modifiers.command);
        let mode = if adds { SelectMode::Toggle } else { SelectMode::Only };
        self.commands.push(Command::Select(target, mode));
    }

    /// Straights and arcs: hover, click, and drag to pan.
    pub fn pieces(&mut self, strip: &Response) {
        let model = self.model;
        for (index, piece) in model.pieces.iter().enumerate() {
            // What is too short to be pointed at can be zoomed to.
            let tiny = self.plan.length(piece.length_mm.abs()) < LEAST_HELD;
            if tiny || !self.plan.sees(piece.from_mm, piece.to_mm()) {
                continue;
            }
            let rect = self.plan.stretch(piece.from_mm, piece.to_mm(), self.plan.tube).intersect(self.plan.rect);
            let response = self.ui.interact(rect, self.id(("piece", index)), Sense::CLICK | Sense::DRAG);
            let label = piece.label(model.unit);
            response.widget_info(|| WidgetInfo::selected(WidgetType::SelectableLabel, true, piece.selected, &label));
            if response.hovered() {
                self.hovered = Some(piece.named());
            }
            if response.clicked() {
                strip.request_focus();
                self.select(piece.named());
            }
            if response.secondary_clicked() {
                if !piece.selected {
                    self.commands.push(Command::Select(piece.named(), SelectMode::Only));
                }
                here_menu::ask(self.ui.ctx(), self.ui.ctx().pointer_latest_pos().unwrap_or(rect.left_bottom()));
            }
            self.pan_and_fit(&response);
            response.on_hover_text(format!("{label}\n{}", piece.place(model.unit)));
        }
    }

    /// Brackets: hover and click mean their bend.
    pub fn footprints(&mut self, lanes: &Lanes) {
        let model = self.model;
        for (clamp, lane) in model.footprints.iter().zip(&lanes.clamps) {
            let tiny = self.plan.length(clamp.to_mm - clamp.from_mm) < LEAST_HELD;
            if tiny || !self.plan.sees(clamp.from_mm, clamp.to_mm) {
                continue;
            }
            let rect = self.plan.stretch(clamp.from_mm, clamp.to_mm, self.plan.clamp_lane(*lane));
            let response =
                self.ui.interact(rect.intersect(self.plan.rect), self.id(("clamp", clamp.bend)), Sense::CLICK);
            let label = format!("Clamp of bend {}", clamp.bend + 1);
            response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
            if response.hovered() {
                self.hovered = Some(Target::Bend(clamp.id));
            }
            if response.clicked() {
                self.select(Target::Bend(clamp.id));
            }
            response.on_hover_text(format!("{label}, {}", clamp.told(model.unit)));
        }
    }

    /// Findings: a click goes there.
    pub fn marks(&mut self, lanes: &Lanes) {
        let model = self.model;
        // In the order in which they are painted: what lies on top is what the pointer means.
        for (index, (mark, lane)) in model.marks.iter().zip(&lanes.marks).enumerate().rev() {
            if !self.plan.sees(mark.from_mm, mark.to_mm) {
                continue;
            }
            let rect = self.plan.stretch(mark.from_mm, mark.to_mm, self.plan.mark_lane(*lane)).expand(2.0);
            let response = self.ui.interact(rect.intersect(self.plan.rect), self.id(("mark", index)), Sense::CLICK);
            let label = format!("Go to finding {}: {}", mark.finding + 1, mark.text);
            response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
            if response.clicked() {
                self.commands.push(Command::GoToFinding(mark.finding));
            }
            let word = mark.severity.word();
            response.on_hover_text(format!("{}: {}", capital(word), mark.text));
        }
    }

    /// Edges: drag to try, release to make, escape to drop.
    pub fn edges(&mut self) {
        let model = self.model;
        self.held.near = None;
        let edges: Vec<_> = Edge::all(model).map(|(edge, mm)| (edge, mm, self.plan.at(mm))).collect();
        for (index, (edge, mm, at)) in edges.iter().enumerate() {
            // Neighbouring edges share the room between them.
            let room =
                |other: Option<&(Edge, f64, f32)>| other.map_or(REACH, |(_, _, x)| ((x - at).abs() / 2.0).min(REACH));
            let left = room(index.checked_sub(1).and_then(|before| edges.get(before)));
            let right = room(edges.get(index + 1));
            let in_hand = self.held.drag.is_some_and(|(drag, _)| drag.edge == *edge);
            if !in_hand && (left + right < 3.0 || !self.plan.sees(*mm, *mm)) {
                continue;
            }
            let rect = Rect::from_x_y_ranges(Rangef::new(at - left, at + right), self.plan.tube.expand(2.0));
            let response = self.ui.interact(rect, self.id(("edge", edge)), Sense::DRAG);
            let label = edge.label(model);
            response.widget_info(|| WidgetInfo::labeled(WidgetType::Other, true, &label));
            let response = response.on_hover_and_drag_cursor(CursorIcon::ResizeHorizontal);
            if response.hovered() || response.dragged() {
                self.held.near = Some(*edge);
            }
            self.drag(*edge, &response);
        }
    }

    fn drag(&mut self, edge: Edge, response: &Response) {
        let escape = self.ui.input(|input| input.key_pressed(Key::Escape));
        if response.drag_started_by(PointerButton::Primary) {
            self.held.drag = Drag::begin(edge, self.model).map(|drag| (drag, self.plan.scale));
        }
        let Some((mut drag, scale)) = self.held.drag.filter(|(drag, _)| drag.edge == edge) else { return };
        if response.drag_stopped() || (escape && response.dragged()) {
            self.held.drag = None;
            if escape {
                // The key has done its work here and must not clear the selection as well.
                self.ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
            }
            if self.model.previewing || drag.value != drag.began {
                let dropped = escape || drag.value == drag.began;
                self.commands.push(if dropped { Command::DropPreview } else { Command::CommitPreview });
            }
        } else if response.dragged() {
            let (origin, now, free) =
                self.ui.input(|input| (input.pointer.press_origin(), input.pointer.latest_pos(), input.modifiers.alt));
            if let (Some(origin), Some(now)) = (origin, now) {
                let moved_mm = f64::from(now.x - origin.x) / scale.points_per_mm;
                let value =
                    if now.x == origin.x { drag.began } else { drag.value_at(moved_mm, self.model.unit, !free) };
                if value != drag.value {
                    drag.value = value;
                    self.commands.push(Command::Preview(drag.edit(value)));
                }
                self.held.drag = Some((drag, scale));
            }
        }
    }

    /// Wheel, pan and fit on the strip itself.
    pub fn view(&mut self, strip: &Response) {
        self.pan_and_fit(strip);
        if self.held.drag.is_some() || !self.ui.rect_contains_pointer(self.plan.rect) {
            return;
        }
        let (zoom, scroll, pointer) =
            self.ui.input(|input| (input.zoom_delta(), input.smooth_scroll_delta(), input.pointer.hover_pos()));
        let Some(pointer) = pointer else { return };
        let (extent_mm, x) = (self.model.extent_mm(), self.plan.x);
        let whole = Scale::fitting(extent_mm, f64::from(x.span()));
        if zoom != 1.0 {
            let scale = self.plan.scale.zoomed(f64::from(zoom), pointer.x, x, whole.points_per_mm);
            self.held.view.zoomed = (scale.points_per_mm > whole.points_per_mm * 1.0001).then_some(scale);
        } else if scroll != egui::Vec2::ZERO && self.held.view.zoomed.is_some() {
            let points = if scroll.x.abs() > scroll.y.abs() { scroll.x } else { scroll.y };
            self.held.view.zoomed = Some(self.plan.scale.panned(points, extent_mm, x));
        }
    }

    fn pan_and_fit(&mut self, response: &Response) {
        if response.double_clicked() {
            self.held.view.zoomed = None;
        } else if response.dragged() && self.held.view.zoomed.is_some() {
            let points = response.drag_delta().x;
            self.held.view.zoomed = Some(self.plan.scale.panned(points, self.model.extent_mm(), self.plan.x));
        }
    }

    /// Arrow keys go along the tube, plus and minus change what is selected.
    pub fn keys(&mut self, strip: &Response) {
        if strip.clicked() {
            strip.request_focus();
        }
        if !strip.has_focus() {
            return;
        }
        let filter = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
        self.ui.memory_mut(|memory| memory.set_focus_lock_filter(strip.id, filter));
        let last = self.model.pieces.len().saturating_sub(1);
        let now = self.model.pieces.iter().rposition(|piece| piece.selected);
        let pressed = |key| self.ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
        let to = if pressed(Key::ArrowRight) {
            Some(now.map_or(0, |now| (now + 1).min(last)))
        } else if pressed(Key::ArrowLeft) {
            Some(now.map_or(last, |now| now.saturating_sub(1)))
        } else if pressed(Key::Home) {
            Some(0)
        } else if pressed(Key::End) {
            Some(last)
        } else {
            None
        };
        let steps =
            f64::from(u8::from(pressed(Key::Plus) || pressed(Key::Equals))) - f64::from(u8::from(pressed(Key::Minus)));
        if let Some(piece) = to.and_then(|to| self.model.pieces.get(to)) {
            self.commands.push(Command::Select(piece.named(), SelectMode::Only));
        }
        if let (Some(piece), true) = (now.map(|now| &self.model.pieces[now]), steps != 0.0) {
            let edit = match (piece.target, piece.arc) {
                (Target::Bend(_), Some((angle_rad, _))) => {
                    let degrees = (angle_rad.to_degrees() + steps * KEY_DEGREES).max(KEY_DEGREES);
                    Some(Edit::SetAngle(piece.id, Angle::from_degrees(degrees)))
                }
                (Target::Straight(_), _) => {
                    let length_mm = piece.length_mm + steps * round_length_mm(self.model.unit);
                    Some(Edit::SetStraight(piece.id, Length::from_mm(length_mm)))
                }
                _ => None,
            };
            self.commands.extend(edit.map(Command::Edit));
        }
    }

    /// Says what lies under the pointer, where that has changed, and hands the commands over.
    pub fn finish(mut self) -> Vec<Command> {
        let pointer_left = self.hovered.is_none() && self.held.hovered.is_some();
        if self.hovered != self.held.hovered || pointer_left {
            self.commands.push(Command::Hover(self.hovered));
        }
        self.held.hovered = self.hovered;
        self.commands
    }
}
