//! The command list: everything there is to do, found by typing a part of its name.

mod model;

pub(crate) use model::MOST_FINDINGS;
pub use model::{Entry, Model};

use egui::{
    Align, Align2, Area, Frame, Id, Key, Modifiers, Order, RichText, ScrollArea, Sense, TextEdit, Ui, WidgetInfo,
    WidgetType, style::ScrollAnimation, vec2,
};
use elbowroom_workbench::Command;

use crate::colours::{colour, colours};

/// What is typed, and which entry would be run.
#[derive(Clone, Debug, Default)]
pub struct State {
    filter: String,
    at: usize,
    /// Whether the list was open in the last frame, so that it opens empty.
    open: bool,
}

/// Forgets what was typed; for frames in which the list is closed.
pub fn closed(state: &mut State) {
    *state = State::default();
}

/// Shows the list over everything else.
pub fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    let window = ui.ctx().content_rect();
    let mut commands = Vec::new();
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let (up, down, enter, escape) =
        (pressed(Key::ArrowUp), pressed(Key::ArrowDown), pressed(Key::Enter), pressed(Key::Escape));
    let count = model.found(&state.filter).len();
    if up {
        state.at = state.at.checked_sub(1).unwrap_or(count.saturating_sub(1));
    }
    if down {
        state.at = if state.at + 1 < count { state.at + 1 } else { 0 };
    }
    let width = 560.0_f32.min(window.width() - 56.0);
    let place = window.center_top() + vec2(0.0, (window.height() * 0.12).min(90.0));
    let area = Area::new(Id::new("command list"))
        .order(Order::Foreground)
        .pivot(Align2::CENTER_TOP)
        .fixed_pos(place)
        .constrain(true);
    let shown = area.show(ui.ctx(), |ui| {
        Frame::window(ui.style()).show(ui, |ui| {
            ui.set_width(width);
            let edit = TextEdit::singleline(&mut state.filter)
                .hint_text("What would you like to do?")
                .desired_width(f32::INFINITY)
                .vertical_align(Align::Center)
                .min_size(vec2(0.0, 32.0));
            let typed = ui.add(edit);
            typed.widget_info(|| WidgetInfo::labeled(WidgetType::TextEdit, true, "Filter commands"));
            // The keyboard belongs to the filter for as long as the list is open.
            typed.request_focus();
            if typed.changed() {
                state.at = 0;
            }
            let found = model.found(&state.filter);
            state.at = state.at.min(found.len().saturating_sub(1));
            if found.is_empty() {
                ui.label("Nothing is called that. Try a single word, such as undo or save.");
            }
            let moved = up || down || typed.changed() || !state.open;
            ScrollArea::vertical().max_height((window.height() * 0.6).max(120.0)).show(ui, |ui| {
                for (line, entry) in found.iter().enumerate() {
                    let response = line_ui(ui, entry, line == state.at);
                    if line == state.at && moved {
                        response.scroll_to_me_animation(None, ScrollAnimation::none());
                    }
                    let chosen = response.clicked() || (line == state.at && enter);
                    if chosen && entry.disabled.is_none() {
                        // Closed first, so that what is run finds the window as it was.
                        commands.extend([Command::ToggleCommandList, entry.command.clone()]);
                    }
                }
            });
        });
    });
    state.open = true;
    let elsewhere = ui.input(|input| {
        let pointer = &input.pointer;
        pointer.any_pressed() && pointer.interact_pos().is_some_and(|at| !shown.response.rect.contains(at))
    });
    if commands.is_empty() && (escape || elsewhere) {
        commands.push(Command::ToggleCommandList);
    }
    if !commands.is_empty() {
        closed(state);
    }
    commands
}

/// One command: its name, its key, and why it cannot be run now where it cannot.
fn line_ui(ui: &mut Ui, entry: &Entry, chosen: bool) -> egui::Response {
    let palette = colours(ui);
    let enabled = entry.disabled.is_none();
    let height = if enabled { 28.0 } else { 42.0 };
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::CLICK);
    response.widget_info(|| WidgetInfo::selected(WidgetType::Button, enabled, chosen, &entry.label));
    if chosen || response.hovered() {
        let fill = if chosen { palette.selection } else { palette.hovered };
        ui.painter().rect_filled(rect, 4.0, colour(fill));
    }
    let font = egui::TextStyle::Body.resolve(ui.style());
    let small = egui::TextStyle::Small.resolve(ui.style());
    let ink = colour(if enabled { palette.text } else { palette.weak_text });
    let weak = colour(palette.weak_text);
    let middle = if enabled { rect.center().y } else { rect.top() + 14.0 };
    let key = ui.painter().text(
        egui::pos2(rect.right() - 10.0, middle),
        Align2::RIGHT_CENTER,
        &entry.shortcut,
        small.clone(),
        weak,
    );
    let room = key.left() - rect.left() - 20.0;
    let text = |text: &str, font: egui::FontId, ink, room: f32| {
        let mut job = egui::text::LayoutJob::simple_singleline(text.to_owned(), font, ink);
        job.wrap = egui::text::TextWrapping::truncate_at_width(room.max(20.0));
        ui.painter().layout_job(job)
    };
    let name = text(&entry.label, font, ink, room);
    ui.painter().galley(egui::pos2(rect.left() + 10.0, middle - name.size().y / 2.0), name, ink);
    if let Some(reason) = &entry.disabled {
        let reason = text(reason, small, weak, rect.width() - 20.0);
        ui.painter().galley(egui::pos2(rect.left() + 10.0, rect.bottom() - reason.size().y - 4.0), reason, weak);
    }
    if entry.tooltip.is_empty() { response } else { response.on_hover_text(RichText::new(&entry.tooltip)) }
}
