//! Where the panels lie in the window: bar on top, strip along the bottom, column at the right, drawer at
//! the left, the rest left to the scene.

use egui::{Frame, Margin, Order, Rect, ScrollArea, Ui, Vec2};
use elbowroom_workbench::{Command, Workbench};

use crate::PanelState;
use crate::panel::{Place, REGISTRY};
use crate::shortcuts::shortcuts;
use crate::style::ready;

/// Usual width of the right column, points.
const COLUMN: f32 = 400.0;
/// Usual width of the drawer, points.
const DRAWER: f32 = 310.0;
/// Usual height of the strip with its margins, points.
const STRIP: f32 = crate::strip::HEIGHT + 10.0;
/// A window lower than this, points, has no room for a head that stays: it is scrolled with the rest.
const ROOM_FOR_HEAD: f32 = 480.0;
/// The share of the window that a column or drawer may take at most.
const LARGEST_SHARE: f32 = 0.46;

/// What a frame of the panels gave.
pub struct Shown {
    /// What was asked for, in order.
    pub commands: Vec<Command>,
    /// The part of the window that is left to the scene, in points.
    pub scene: Rect,
    /// Whether the pointer is over the scene, with nothing above it there and no panel holding it.
    pub scene_hovered: bool,
    /// Whether a text field has the keyboard.
    pub text_focused: bool,
}

/// Draws every panel around and above the scene. `root` must cover the window; [`crate::install`] first.
pub fn show(root: &mut Ui, workbench: &Workbench, state: &mut PanelState) -> Shown {
    let mut commands = Vec::new();
    let window = root.available_rect_before_wrap();
    if !ready(root.ctx()) {
        return Shown { commands, scene: window, scene_hovered: false, text_focused: false };
    }
    let plain = Frame::side_top_panel(root.style());

    if any(Place::Whole, workbench) {
        let frame = Frame::central_panel(root.style()).inner_margin(Margin::symmetric(16, 10));
        egui::CentralPanel::default().frame(frame).show(root, |ui| {
            commands.extend(all(Place::Whole, ui, workbench, state));
        });
        commands.extend(all(Place::Overlay, root, workbench, state));
        commands.extend(shortcuts(root.ctx(), workbench));
        // Nothing is left to the scene, which then draws nothing.
        let scene = Rect::from_min_size(window.min, Vec2::ZERO);
        return Shown { commands, scene, scene_hovered: false, text_focused: root.ctx().text_edit_focused() };
    }

    egui::Panel::top("bar").frame(plain.inner_margin(Margin::symmetric(8, 4))).show(root, |ui| {
        commands.extend(all(Place::Bar, ui, workbench, state));
    });
    if any(Place::Notice, workbench) {
        egui::Panel::top("notice").frame(plain.inner_margin(Margin::symmetric(8, 6))).show(root, |ui| {
            commands.extend(all(Place::Notice, ui, workbench, state));
        });
    }
    let strip = STRIP.min(window.height() * 0.4);
    let frame = plain.inner_margin(Margin::symmetric(8, 4));
    egui::Panel::bottom("strip").exact_size(strip).frame(frame).show(root, |ui| {
        commands.extend(all(Place::Strip, ui, workbench, state));
    });
    let widest = window.width() * LARGEST_SHARE;
    let usual = COLUMN.min(widest);
    let frame = plain.inner_margin(Margin { left: 10, right: 4, top: 8, bottom: 6 });
    let column = egui::Panel::right("column").default_size(usual).size_range(usual.min(260.0)..=widest).frame(frame);
    column.show(root, |ui| {
        let head_stays = window.height() >= ROOM_FOR_HEAD;
        if head_stays {
            commands.extend(all(Place::ColumnHead, ui, workbench, state));
        }
        // Each sheet keeps its own place.
        let scroll = ScrollArea::vertical().id_salt(("column scroll", workbench.screen().sheet.name()));
        scroll.auto_shrink([false, false]).show(ui, |ui| {
            if !head_stays {
                commands.extend(all(Place::ColumnHead, ui, workbench, state));
            }
            commands.extend(all(Place::Column, ui, workbench, state));
        });
    });
    if any(Place::Drawer, workbench) {
        let usual = DRAWER.min(widest);
        let drawer = egui::Panel::left("drawer").default_size(usual).size_range(usual.min(220.0)..=widest).frame(frame);
        drawer.show(root, |ui| {
            ScrollArea::vertical().id_salt("drawer scroll").auto_shrink([false, false]).show(ui, |ui| {
                commands.extend(all(Place::Drawer, ui, workbench, state));
            });
        });
    }
    let scene = root.available_rect_before_wrap();
    commands.extend(all(Place::Overlay, root, workbench, state));

    let context = root.ctx();
    // Last, so that whatever has the keyboard in a panel has taken its keys already.
    commands.extend(shortcuts(context, workbench));
    Shown { commands, scene, scene_hovered: scene_hovered(context, scene), text_focused: context.text_edit_focused() }
}

fn any(place: Place, workbench: &Workbench) -> bool {
    REGISTRY.iter().any(|panel| panel.place == place && (panel.shown)(workbench.screen()))
}

fn all(place: Place, ui: &mut Ui, workbench: &Workbench, state: &mut PanelState) -> Vec<Command> {
    let here = REGISTRY.iter().filter(|panel| panel.place == place && (panel.shown)(workbench.screen()));
    here.flat_map(|panel| ui.push_id(panel.name, |ui| (panel.show)(ui, workbench, state)).inner).collect()
}

fn scene_hovered(context: &egui::Context, scene: Rect) -> bool {
    let Some(pointer) = context.pointer_hover_pos() else { return false };
    let nothing_above = context.layer_id_at(pointer).is_none_or(|layer| layer.order == Order::Background);
    scene.contains(pointer) && nothing_above && !context.egui_is_using_pointer()
}
