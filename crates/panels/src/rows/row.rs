//! Draws one row: mark, number, cells.

use egui::{Align2, Rect, Sense, Stroke, TextStyle, Ui, WidgetInfo, WidgetType, pos2, vec2};
use elbowroom_workbench::{Command, SelectMode, Table, Target};

use super::click::click_mode;
use super::field::field;
use super::stays::in_words;
use super::{Cell, Column, Model, State};
use crate::colours::{colour, colours};
use crate::here_menu;
use crate::widgets::{MARK_ASPECT, paint_mark};

/// Height of a row, points.
pub(super) const HEIGHT: f32 = 26.0;
/// Width of the mark and number at the left, points: among points there stand names as well.
const fn left(table: Table) -> f32 {
    match table {
        Table::Rows => 54.0,
        Table::Points => 76.0,
    }
}
const GAP: f32 = 3.0;

/// The stretch of a row that a column takes.
pub(super) fn cell_rect(row: Rect, table: Table, column: Column) -> Rect {
    let names = left(table);
    let width = ((row.width() - names) / 4.0).max(24.0);
    let left = row.left() + names + width * column.index() as f32;
    Rect::from_min_max(pos2(left + GAP, row.top()), pos2(left + width, row.bottom()))
}

/// Draws the row of a bend or, after the last one, of the tail.
pub(super) fn row(ui: &mut Ui, index: usize, model: &Model, state: &mut State) -> Vec<Command> {
    let palette = colours(ui);
    let mut commands = Vec::new();
    let is_tail = model.is_tail(index);
    let marks = model.marks(index);
    let selected = model.is_selected(index);
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), HEIGHT), Sense::CLICK);

    let name = model.name(index);
    let word = marks.severity.map_or(String::new(), |severity| format!(", {}", severity.word()));
    let held = in_words(model.hold(index));
    let held = if held.is_empty() { String::new() } else { format!(", {held}") };
    response.widget_info(|| {
        WidgetInfo::selected(WidgetType::SelectableLabel, true, selected, format!("{name}{word}{held}"))
    });
    if response.clicked() {
        commands.push(Command::Select(model.target(index).named(&model.nodes), click_mode(ui)));
    }
    // The fields of the row lie over it and would keep the click to themselves.
    if ui.rect_contains_pointer(rect) && ui.input(|input| input.pointer.secondary_clicked()) {
        if !selected {
            commands.push(Command::Select(model.target(index).named(&model.nodes), SelectMode::Only));
        }
        here_menu::ask(ui.ctx(), ui.ctx().pointer_latest_pos().unwrap_or(rect.left_bottom()));
    }

    let fill = match (selected, marks.hovered) {
        (true, _) => Some(palette.selection),
        (false, true) => Some(palette.hovered),
        (false, false) => None,
    };
    if let Some(fill) = fill {
        ui.painter().rect_filled(rect, 3.0, colour(fill));
    }
    if selected {
        // A bar at the edge, so that the selection is not told by colour alone.
        let bar = Rect::from_min_size(rect.left_top(), vec2(3.0, rect.height()));
        ui.painter().rect_filled(bar, 1.5, colour(palette.accent));
    }
    if let Some(severity) = marks.severity {
        let place = Rect::from_center_size(pos2(rect.left() + 14.0, rect.center().y), vec2(15.0 * MARK_ASPECT, 15.0));
        paint_mark(ui.painter(), palette, place, severity);
    }
    let number = model.number(index);
    let font = TextStyle::Body.resolve(ui.style());
    let at = pos2(rect.left() + left(model.table) - 4.0, rect.center().y);
    let written = ui.painter().text(at, Align2::RIGHT_CENTER, number, font.clone(), colour(palette.text));
    let hold = model.hold(index);
    // A frame about what stays in its place, a bar beneath what keeps its direction.
    let line = Stroke::new(1.5, colour(palette.text));
    if hold.place {
        ui.painter().rect_stroke(written.expand2(vec2(3.0, 1.0)), 2.0, line, egui::StrokeKind::Outside);
    }
    if hold.direction {
        ui.painter().hline(
            written.expand2(vec2(3.0, 0.0)).x_range(),
            written.bottom() + 3.0,
            Stroke::new(3.0, line.color),
        );
    }
    if !hold.is_nothing() {
        let hint = format!("{name}: {}", in_words(hold));
        ui.interact(written, response.id.with("held"), Sense::hover()).on_hover_text(hint);
    }

    for column in Column::of(model.table) {
        let (cell, place) = (Cell::new(index, column), cell_rect(rect, model.table, column));
        if model.exists(cell) {
            commands.extend(field(ui, place, cell, model, state));
        } else if !is_tail {
            let at = pos2(place.right() - 5.0, place.center().y);
            ui.painter().text(at, Align2::RIGHT_CENTER, "–", font.clone(), colour(palette.weak_text));
            let hint = match model.table {
                Table::Rows => "The first bend has no rotation of its own: turning the whole tube changes no bend",
                Table::Points => "A radius stands where a bend does; where an arc ends has that of where it begins",
            };
            ui.interact(place, cell.id(), Sense::hover()).on_hover_text(hint);
        }
    }
    if ui.rect_contains_pointer(rect) {
        let over_straight =
            model.table == Table::Rows && ui.rect_contains_pointer(cell_rect(rect, model.table, Column::Straight));
        let here = if over_straight { Target::Straight(index) } else { model.target(index) };
        if model.hover != Some(here) {
            commands.push(Command::Hover(Some(here.named(&model.nodes))));
        }
        state.was_hovered = true;
    }
    commands
}
