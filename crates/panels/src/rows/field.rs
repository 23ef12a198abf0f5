//! Draws one cell as a text field.

use egui::text::{CCursor, CCursorRange, LayoutJob, TextFormat};
use egui::text_edit::TextEditOutput;
use egui::{Align, Area, EventFilter, Frame, Margin, Order, Rect, RichText, Shape, Stroke, TextEdit, TextStyle, Ui};
use elbowroom_workbench::{Command, SelectMode};

use super::click::click_mode;
use super::keys::{Step, take_step};
use super::{Cell, CellError, Column, Model, State, paste};
use crate::colours::{colour, colours};
use crate::widgets::{forget_typing, leave_letters_to_verbs, take_keyboard};

/// Draws a cell that can be typed into.
pub(super) fn field(ui: &mut Ui, rect: Rect, cell: Cell, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = Vec::new();
    let mut step = None;
    let reached = state.go_to == Some(cell);
    if reached {
        // Before it is drawn, so that it hears what is typed in this very frame.
        take_keyboard(ui, cell.id(), &shown(cell, model, state));
    }
    if ui.memory(|memory| memory.has_focus(cell.id())) {
        commands.extend(keyboard(ui, cell, model, state));
        // Taken out before the text field sees it, and gone once the field has what was typed before it.
        step = take_step(ui);
        leave_letters_to_verbs(ui, state.entry(cell).is_none());
    }
    let before = shown(cell, model, state);
    let mut text = before.clone();
    let error = state.error(cell).cloned();
    let mut output = draw(ui, rect, cell, &mut text, error.as_ref(), model);
    let response = &output.response.response;
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_label(model.label(cell)));

    if reached && response.has_focus() {
        // Until then it keeps asking: the click that sent the keyboard here took it away from every field.
        state.go_to = state.go_to.filter(|next| *next != cell);
    }
    if response.gained_focus() {
        // What was typed into it already stays.
        if text == before {
            let whole = CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()));
            output.state.cursor.set_char_range(Some(whole));
            output.state.clone().store(ui.ctx(), response.id);
        }
        state.active = Some(cell);
        commands.extend(selects(ui, cell, model));
    }
    if text != before {
        commands.extend(state.typed(cell, text, model));
    }
    if let Some(step) = step {
        commands.extend(leave(ui, cell, step, model, state));
    }
    if let Some(error) = &error {
        paint_pointer(ui, rect, &output, error);
        if response.has_focus() || response.hovered() {
            explain(ui, rect, cell, error);
        }
    }
    commands
}

/// The text that stands in a cell.
fn shown(cell: Cell, model: &Model, state: &State) -> String {
    state.entry(cell).map_or_else(|| model.text(cell), |entry| entry.text.clone())
}

/// The keyboard in a cell selects its bend, whose clamp then shows: it is the straight that the clamp grips.
/// A straight that is selected already stays so.
fn selects(ui: &Ui, cell: Cell, model: &Model) -> Option<Command> {
    let marks = model.marks(cell.row);
    let target = model.target(cell.row);
    let mode = click_mode(ui);
    let already = marks.bend_selected || cell.column == Column::Straight && marks.straight_selected;
    (!already || mode == SelectMode::Toggle).then_some(Command::Select(target.named(&model.nodes), mode))
}

/// What the keyboard does in a cell, before the text field sees it.
fn keyboard(ui: &Ui, cell: Cell, model: &Model, state: &mut State) -> Vec<Command> {
    if ui.input_mut(|input| input.consume_key(egui::Modifiers::NONE, egui::Key::Escape)) {
        ui.memory_mut(|memory| memory.surrender_focus(cell.id()));
        state.active = None;
        state.go_to = None;
        return state.drop(cell);
    }
    if let Some(pasted) = paste::take_table(ui) {
        let mut commands = state.drop(cell);
        commands.extend(paste::into(&pasted, cell, model, state));
        return commands;
    }
    Vec::new()
}

/// Takes what was typed into a cell and goes on to the next, unless the text cannot be taken.
fn leave(ui: &Ui, cell: Cell, step: Step, model: &Model, state: &mut State) -> Vec<Command> {
    let Ok(commands) = state.commit(cell) else { return Vec::new() };
    ui.memory_mut(|memory| memory.surrender_focus(cell.id()));
    forget_typing(ui);
    state.go_to = step.from(cell, model);
    if state.go_to.is_none() {
        state.active = None;
    }
    ui.ctx().request_repaint();
    commands
}

fn draw(
    ui: &mut Ui,
    rect: Rect,
    cell: Cell,
    text: &mut String,
    error: Option<&CellError>,
    model: &Model,
) -> TextEditOutput {
    let palette = colours(ui);
    let focused = ui.memory(|memory| memory.has_focus(cell.id()));
    let marks = model.marks(cell.row);
    let selected = marks.bend_selected || cell.column == Column::Straight && marks.straight_selected;
    let fill = if selected && !focused { palette.selection } else { palette.field };
    let line = match error {
        Some(_) => Stroke::new(1.5, colour(palette.error_text)),
        None if focused => Stroke::new(1.5, colour(palette.accent)),
        None if ui.rect_contains_pointer(rect) => Stroke::new(1.0, colour(palette.weak_text)),
        None => Stroke::new(1.0, colour(palette.border)),
    };
    let font = TextStyle::Body.resolve(ui.style());
    let (plain, wrong) = (colour(palette.text), colour(palette.error_text));
    let wrong_from = error.map(|error| error.at().unwrap_or(0));
    let mut layouter = |ui: &Ui, buffer: &dyn egui::TextBuffer, _width: f32| {
        let text = buffer.as_str();
        let split =
            wrong_from.map_or(text.len(), |at| text.char_indices().nth(at).map_or(text.len(), |(byte, _)| byte));
        let mut job = LayoutJob { keep_trailing_whitespace: true, ..LayoutJob::default() };
        job.wrap.max_rows = 1;
        job.append(&text[..split], 0.0, TextFormat::simple(font.clone(), plain));
        let underline = Stroke::new(1.0, wrong);
        job.append(&text[split..], 0.0, TextFormat { underline, ..TextFormat::simple(font.clone(), wrong) });
        ui.fonts_mut(|fonts| fonts.layout_job(job))
    };
    let frame = Frame::new().fill(colour(fill)).stroke(line).corner_radius(3.0).inner_margin(Margin::symmetric(4, 3));
    let everything = EventFilter { tab: true, horizontal_arrows: true, vertical_arrows: true, escape: true };
    let mut inside = ui.new_child(egui::UiBuilder::new().max_rect(rect));
    TextEdit::singleline(text)
        .id(cell.id())
        .frame(frame)
        .layouter(&mut layouter)
        .horizontal_align(Align::RIGHT)
        .vertical_align(Align::Center)
        .event_filter(everything)
        .desired_width(rect.width())
        .min_size(rect.size())
        .show(&mut inside)
}

/// Points at the character where the text goes wrong.
fn paint_pointer(ui: &Ui, rect: Rect, output: &TextEditOutput, error: &CellError) {
    let Some(at) = error.at() else { return };
    let place = output.galley.pos_from_cursor(CCursor::new(at));
    let x = (output.galley_pos.x + place.left()).clamp(rect.left() + 3.0, rect.right() - 3.0);
    let tip = egui::pos2(x, rect.bottom() - 5.0);
    let foot = [tip + egui::vec2(-4.0, 6.0), tip + egui::vec2(4.0, 6.0)];
    let fill = colour(colours(ui).error_text);
    ui.painter().add(Shape::convex_polygon(vec![tip, foot[1], foot[0]], fill, Stroke::NONE));
}

/// Says under the cell what is wrong and what would be right.
fn explain(ui: &Ui, rect: Rect, cell: Cell, error: &CellError) {
    let area = Area::new(cell.id().with("error")).order(Order::Tooltip).interactable(false);
    area.fixed_pos(rect.left_bottom() + egui::vec2(0.0, 4.0)).constrain(true).show(ui.ctx(), |ui| {
        Frame::popup(ui.style()).show(ui, |ui| {
            ui.set_max_width(280.0);
            ui.label(RichText::new(error.what()).color(colour(colours(ui).error_text)));
            let right = error.would_be_right();
            if !right.is_empty() {
                ui.label(right);
            }
        });
    });
}
