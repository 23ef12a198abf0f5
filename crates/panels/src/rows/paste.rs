//! Rows from and to a spreadsheet.

use egui::Event;
use elbowroom_bending::Edit;
use elbowroom_geometry::units::{LengthUnit, format_length_exact, parse_angle};
use elbowroom_geometry::{Angle, BendRow, Length};
use elbowroom_workbench::{Command, Table};

use super::paste_error::PasteError;
use super::paste_fields::{fields, quoted, read_length};
use super::{Cell, Column, Model, State, paste_points};

/// Takes pasted text out of the input if it is more than one cell's worth.
pub(super) fn take_table(ui: &egui::Ui) -> Option<String> {
    ui.input_mut(|input| {
        let of_table = |event: &Event| matches!(event, Event::Paste(text) if is_table(text));
        let at = input.events.iter().position(of_table)?;
        match input.events.remove(at) {
            Event::Paste(text) => Some(text),
            _ => None,
        }
    })
}

fn is_table(text: &str) -> bool {
    let text = text.trim();
    text.contains(['\n', '\t', ';']) || text.matches(',').count() >= 2
}

/// The command that pastes a text, its first field into `start`; an error is kept in the state.
pub(super) fn into(text: &str, start: Cell, model: &Model, state: &mut State) -> Vec<Command> {
    let edit = match model.table {
        Table::Rows => edit(text, start, model),
        Table::Points => paste_points::edit(text, start, model),
    };
    match edit {
        Ok(edit) => {
            state.paste_error = None;
            vec![Command::Edit(edit)]
        }
        Err(error) => {
            state.paste_error = Some(error);
            Vec::new()
        }
    }
}

/// Selected rows of the table that is shown as a spreadsheet takes them: tabs between columns, full precision in the shown unit.
pub(super) fn copied(model: &Model, rows: &[usize]) -> String {
    let length = |length: Length| {
        let text = format_length_exact(length, model.unit);
        // The bare number where it is in the shown unit, so that a spreadsheet can reckon with it.
        text.strip_suffix(model.unit.symbol()).map(str::trim_end).map_or(text.clone(), str::to_owned)
    };
    let line = |row: &usize| {
        if let Some((point, _)) = model.points.get(*row) {
            let [x, y, z] = [0, 1, 2].map(|axis| length(Length::from_mm(point.at[axis])));
            let clr = point.clr.map(|clr| format!("\t{}", length(clr))).unwrap_or_default();
            return Some(format!("{x}\t{y}\t{z}{clr}\n"));
        }
        let bend = model.rows.get(*row)?.bend;
        let (rotation, angle) = (degrees(bend.rotation), degrees(bend.angle));
        Some(format!("{}\t{rotation}\t{angle}\t{}\n", length(bend.straight), length(bend.clr)))
    };
    rows.iter().filter_map(line).collect()
}

/// An angle in degrees that reads back to the bit, the roundest of those that do.
fn degrees(angle: Angle) -> f64 {
    // A billionth of a degree is far below what anybody means.
    let round = (angle.degrees() * 1e9).round() / 1e9;
    if Angle::from_degrees(round) == angle { round } else { angle.degrees_exact() }
}

/// The edit that a pasted text asks for.
fn edit(text: &str, start: Cell, model: &Model) -> Result<Edit, PasteError> {
    let mut lines = fields(text);
    let first_line = lines.first().map_or(1, |(line, _)| *line);
    let plain = |line, what: &str| PasteError { line, column: None, what: what.to_owned() };
    if lines.is_empty() {
        return Err(plain(1, "nothing is written; copy rows of straight, rotation, angle and CLR"));
    }
    // A last line with a straight alone is the tail.
    let ends_in_tail = start.column == Column::Straight
        && lines.last().is_some_and(|(_, fields)| fields.len() == 1)
        && (lines.len() > 1 || start.row == model.bends());
    let tail = if ends_in_tail { lines.pop() } else { None };
    let tail = match tail {
        Some((line, fields)) => Some(read_length(&fields[0], line, Column::Straight, model.unit)?),
        None => None,
    };
    let mut rows: Vec<BendRow> = Vec::with_capacity(lines.len());
    for (offset, (line, fields)) in lines.iter().enumerate() {
        let existing = model.rows.get(start.row + offset).map(|row| row.bend);
        let before = rows.last().copied().or_else(|| model.rows.last().map(|row| row.bend));
        rows.push(read_row(fields, *line, start.column, existing, before, model.unit)?);
    }
    let bends = model.bends();
    let put = match (rows.is_empty(), start.row >= bends) {
        (true, _) => None,
        (false, true) => Some(Edit::InsertRows(model.nodes.finish(), rows)),
        (false, false) => Some(Edit::ReplaceRows(model.nodes.bend(start.row), rows)),
    };
    let edit = match (put, tail.map(|tail| Edit::SetStraight(model.nodes.finish(), tail))) {
        (Some(put), Some(tail)) => Edit::Together("paste rows".to_owned(), vec![put, tail]),
        (Some(edit), None) | (None, Some(edit)) => edit,
        (None, None) => return Err(plain(first_line, "nothing is written")),
    };
    edit.applied_to(&model.part).map_err(|refusal| plain(first_line, &refusal.said(model.unit)))?;
    Ok(edit)
}

fn read_row(
    fields: &[String],
    line: usize,
    start: Column,
    existing: Option<BendRow>,
    before: Option<BendRow>,
    unit: LengthUnit,
) -> Result<BendRow, PasteError> {
    let wrong = |what: String| PasteError { line, column: None, what };
    let columns = &Column::of(Table::Rows)[start.index()..];
    if fields.len() > columns.len() {
        let names: Vec<&str> = columns.iter().map(|column| column.name()).collect();
        let noun = if fields.len() == 1 { "column" } else { "columns" };
        return Err(wrong(format!("it has {} {noun}; there is room for {}", fields.len(), names.join(", "))));
    }
    let mut row = match existing {
        Some(row) => row,
        None if start == Column::Straight && fields.len() >= 3 => {
            let missing = || wrong("a new bend needs its CLR as fourth column".to_owned());
            let clr = if fields.len() == 4 { Length::ZERO } else { before.ok_or_else(missing)?.clr };
            BendRow { straight: Length::ZERO, rotation: Angle::ZERO, angle: Angle::ZERO, clr }
        }
        None => return Err(wrong("a new bend needs straight, rotation, angle and CLR".to_owned())),
    };
    for (column, field) in columns.iter().zip(fields) {
        match column {
            Column::Straight => row.straight = read_length(field, line, *column, unit)?,
            Column::Rotation => row.rotation = read_angle(field, line, *column)?,
            Column::Angle => row.angle = read_angle(field, line, *column)?,
            _ => row.clr = read_length(field, line, *column, unit)?,
        }
    }
    Ok(row)
}

fn read_angle(field: &str, line: usize, column: Column) -> Result<Angle, PasteError> {
    let what = |error: elbowroom_geometry::units::EntryError| quoted(field, &error);
    parse_angle(field).map_err(|error| PasteError { line, column: Some(column), what: what(error) })
}
