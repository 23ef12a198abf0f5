//! Draws the table: heading, column names, the rows that show, and what the clipboard brings.

use egui::{Align2, RichText, ScrollArea, Sense, TextStyle, Ui, vec2};
use elbowroom_workbench::{Command, Table};

use super::row::{HEIGHT, cell_rect, row};
use super::{Column, Model, State, buttons, legs, paste, stays};
use crate::colours::{colour, colours};
use crate::widgets::{heading, link};

/// Space between rows, points.
const BETWEEN: f32 = 2.0;
/// The share of the column that the rows may take before they scroll.
const LARGEST_SHARE: f32 = 0.38;
/// Rows that show at least, however low the window.
const FEWEST_ROWS: f32 = 5.0;

/// Cells narrower than this, points, leave the unit out of their heading: the bar names it too.
const ROOM_FOR_UNIT: f32 = 66.0;

/// Draws the table.
pub fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    state.follow(model);
    let mut commands = heading(ui, "Bends", |ui| {
        let mut commands = buttons::ui(ui, model, state);
        commands.extend(ways(ui, model));
        commands
    });
    if let Some(error) = state.paste_error.clone() {
        ui.label(RichText::new(error.to_string()).color(colour(colours(ui).error_text)));
        if link(ui, "Put this away", "put the paste error away").clicked() {
            state.paste_error = None;
        }
    }
    commands.extend(names(ui, model));

    let step = HEIGHT + BETWEEN;
    let room = room_in(ui.clip_rect().height());
    let mut area = ScrollArea::vertical().id_salt("rows").max_height(room).auto_shrink([false, true]);
    if let Some(offset) = wanted_offset(model, state, step) {
        area = area.vertical_scroll_offset(offset);
    }
    let hovered_before = std::mem::take(&mut state.was_hovered);
    let active = state.active;
    let mut active_shows = false;
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = BETWEEN;
        let shown = area.show_rows(ui, HEIGHT, model.lines(), |ui, range| {
            active_shows = active.is_some_and(|cell| range.contains(&cell.row));
            for index in range {
                commands.extend(row(ui, index, model, state));
            }
        });
        state.scrolled = (shown.state.offset.y, shown.inner_rect.height());
    });
    if hovered_before && !state.was_hovered && model.hover.is_some() {
        commands.push(Command::Hover(None));
    }
    if let Some(legs) = &model.legs {
        commands.extend(legs::ui(ui, legs));
    }
    commands.extend(leave(ui, state, active, active_shows));
    commands.extend(clipboard(ui, model, state));
    commands
}

/// The choice between rows and points, from the right.
fn ways(ui: &mut Ui, model: &Model) -> Option<Command> {
    let mut asked = None;
    for table in Table::ALL.iter().rev() {
        let chosen = ui.selectable_label(model.table == *table, table.name()).on_hover_text(table.purpose());
        if chosen.clicked() && model.table != *table {
            asked = Some(Command::ShowTable(*table));
        }
    }
    asked
}

/// How high the rows may be together in a column of that height: whole rows alone, since one that is cut by a few points
/// looks like the last one.
fn room_in(column: f32) -> f32 {
    let step = HEIGHT + BETWEEN;
    (column * LARGEST_SHARE / step).floor().max(FEWEST_ROWS) * step - BETWEEN
}

/// The names of the columns, and ahead of them what stays while they are typed into.
fn names(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let palette = colours(ui);
    let font = TextStyle::Small.resolve(ui.style());
    // The same width as the rows have, which leave room for the scroll bar.
    let (whole, _) = ui.allocate_exact_size(vec2(ui.available_width(), 18.0), Sense::hover());
    let first = cell_rect(whole, model.table, Column::of(model.table)[0]);
    let room = egui::Rect::from_min_max(whole.left_top(), egui::pos2(first.left() - 2.0, whole.bottom()));
    let commands = stays::ui(ui, room, &model.stays);
    for column in Column::of(model.table) {
        let place = cell_rect(whole, model.table, column);
        let unit = if column.is_length() { model.unit.symbol() } else { "°" };
        let text = if place.width() < ROOM_FOR_UNIT {
            column.heading().to_owned()
        } else {
            format!("{} {unit}", column.heading())
        };
        let at = egui::pos2(place.right() - 5.0, place.center().y);
        ui.painter().text(at, Align2::RIGHT_CENTER, text, font.clone(), colour(palette.weak_text));
        let name = ui.interact(place, ui.id().with(column.heading()), Sense::hover());
        name.on_hover_text(column.meaning());
    }
    commands
}

/// Where to scroll so that the cell that is to get the keyboard, or a row just selected elsewhere, shows.
fn wanted_offset(model: &Model, state: &mut State, step: f32) -> Option<f32> {
    let selected = (model.primary_row != state.last_primary).then_some(model.primary_row).flatten();
    state.last_primary = model.primary_row;
    let top = state.go_to.map(|cell| cell.row).or(selected)? as f32 * step;
    let (offset, height) = state.scrolled;
    if height <= 0.0 {
        return None;
    }
    if top < offset {
        Some(top)
    } else if top + step > offset + height {
        Some(top + step - height)
    } else {
        None
    }
}

/// Takes what was typed when the keyboard has gone elsewhere or the cell has been scrolled away.
fn leave(ui: &Ui, state: &mut State, active: Option<super::Cell>, shows: bool) -> Vec<Command> {
    let Some(cell) = active.filter(|cell| state.go_to.is_none_or(|next| next == *cell)) else { return Vec::new() };
    if shows && ui.memory(|memory| memory.has_focus(cell.id())) {
        return Vec::new();
    }
    ui.memory_mut(|memory| memory.surrender_focus(cell.id()));
    if state.active == Some(cell) {
        state.active = None;
    }
    state.commit(cell).unwrap_or_default()
}

/// Copies selected rows, and pastes rows, while no text field has the keyboard.
fn clipboard(ui: &Ui, model: &Model, state: &mut State) -> Vec<Command> {
    if ui.ctx().text_edit_focused() || model.question_open {
        return Vec::new();
    }
    let copies = ui.input(|input| input.events.iter().any(|event| matches!(event, egui::Event::Copy)));
    let lines: Vec<usize> = (0..model.lines()).filter(|row| model.marks(*row).bend_selected).collect();
    if copies && !lines.is_empty() {
        ui.ctx().copy_text(paste::copied(model, &lines));
    }
    let pasted = ui.input(|input| {
        input.events.iter().find_map(|event| match event {
            egui::Event::Paste(text) => Some(text.clone()),
            _ => None,
        })
    });
    let Some(text) = pasted else { return Vec::new() };
    let first = Column::of(model.table)[0];
    let row = lines.first().copied().unwrap_or(model.lines() - 1);
    let row = if model.table == Table::Points && lines.is_empty() { model.lines() } else { row };
    paste::into(&text, super::Cell::new(row, first), model, state)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_row_is_cut_however_high_the_column_is() {
        for column in (100..2000).map(|height| height as f32) {
            let rows = (room_in(column) + BETWEEN) / (HEIGHT + BETWEEN);
            assert!((rows - rows.round()).abs() < 1e-4 && rows >= FEWEST_ROWS, "{rows} rows in {column}");
            assert!(room_in(column) <= column * LARGEST_SHARE || rows == FEWEST_ROWS, "{rows} rows in {column}");
        }
    }
}
