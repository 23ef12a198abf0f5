//! How the keyboard moves from cell to cell.

use super::{Cell, Column, Model};

/// A wish to leave a cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Tab: the next cell.
    Next,
    /// Shift and Tab: the cell before.
    Back,
    /// Enter or arrow down: the cell below.
    Down,
    /// Arrow up: the cell above.
    Up,
}

impl Step {
    /// The cell it leads to in a table, if there is one.
    pub fn from(self, cell: Cell, model: &Model) -> Option<Cell> {
        match self {
            Self::Down => below(cell, model),
            Self::Up => (0..cell.row).rev().map(|row| Cell::new(row, cell.column)).find(|cell| model.exists(*cell)),
            Self::Next => in_order(model, place(cell) + 1..4 * model.lines()).next(),
            Self::Back => in_order(model, 0..place(cell)).next_back(),
        }
    }
}

/// The cell below that can be typed into; where the column has none, the first of the row below: under the last bend that
/// is the tail, whatever the column.
fn below(cell: Cell, model: &Model) -> Option<Cell> {
    let same = (cell.row + 1..model.lines()).map(|row| Cell::new(row, cell.column)).find(|cell| model.exists(*cell));
    same.or_else(|| (cell.row + 1 < model.lines()).then(|| Cell::new(cell.row + 1, Column::of(model.table)[0])))
}

/// The place of a cell in reading order.
fn place(cell: Cell) -> usize {
    4 * cell.row + cell.column.index()
}

fn in_order(model: &Model, places: std::ops::Range<usize>) -> impl DoubleEndedIterator<Item = Cell> {
    let columns = Column::of(model.table);
    places.map(move |place| Cell::new(place / 4, columns[place % 4])).filter(|cell| model.exists(*cell))
}

/// Takes the key by which a cell is left out of the input, if one was pressed.
pub fn take_step(ui: &egui::Ui) -> Option<Step> {
    use egui::{Key, Modifiers};
    let keys = [
        (Modifiers::SHIFT, Key::Tab, Step::Back),
        (Modifiers::NONE, Key::Tab, Step::Next),
        (Modifiers::SHIFT, Key::Enter, Step::Up),
        (Modifiers::NONE, Key::Enter, Step::Down),
        (Modifiers::NONE, Key::ArrowUp, Step::Up),
        (Modifiers::NONE, Key::ArrowDown, Step::Down),
    ];
    let mut pressed = keys.into_iter();
    let (_, _, step) = ui.input_mut(|input| pressed.find(|(modifiers, key, _)| input.consume_key(*modifiers, *key)))?;
    // In the first frame of a field the toolkit does not know yet that the field keeps these keys, and would go on by itself.
    ui.memory_mut(|memory| memory.move_focus(egui::FocusDirection::None));
    Some(step)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use elbowroom_bending::specimen;
    use elbowroom_workbench::{Command, Table, Workbench};

    use super::*;

    fn walk(table: Table, step: Step, from: (usize, Column), to: Option<(usize, Column)>) {
        let rows = [90.0, 30.0].map(|angle| specimen::row(200.0, 0.0, angle));
        let mut bench = Workbench::new(specimen::part(rows.to_vec(), 200.0).unwrap(), specimen::shop());
        bench.perform(Command::ShowTable(table));
        let to = to.map(|(row, column)| Cell::new(row, column));
        assert_eq!(step.from(Cell::new(from.0, from.1), &Model::of(&bench)), to, "{step:?} from {from:?}");
    }

    fn check(step: Step, from: (usize, Column), to: Option<(usize, Column)>) {
        walk(Table::Rows, step, from, to);
    }

    #[test]
    fn the_keys_walk_the_points() {
        use Column::{Clr, X, Y, Z};
        let check = |step, from, to| walk(Table::Points, step, from, to);
        check(Step::Next, (0, Z), Some((1, X)));
        check(Step::Next, (1, Z), Some((1, Clr)));
        check(Step::Next, (3, Y), Some((3, Z)));
        check(Step::Next, (3, Z), None);
        check(Step::Back, (3, X), Some((2, Clr)));
        check(Step::Back, (0, X), None);
        check(Step::Down, (2, Y), Some((3, Y)));
        check(Step::Down, (2, Clr), Some((3, X)));
        check(Step::Down, (3, X), None);
        check(Step::Up, (1, Clr), None);
        check(Step::Up, (1, X), Some((0, X)));
    }

    #[test]
    fn the_keys_walk_the_table() {
        use Column::{Angle, Clr, Rotation, Straight};
        check(Step::Next, (0, Straight), Some((0, Angle)));
        check(Step::Next, (0, Clr), Some((1, Straight)));
        check(Step::Next, (1, Straight), Some((1, Rotation)));
        check(Step::Next, (1, Clr), Some((2, Straight)));
        check(Step::Next, (2, Straight), None);
        check(Step::Back, (0, Straight), None);
        check(Step::Back, (0, Angle), Some((0, Straight)));
        check(Step::Back, (2, Straight), Some((1, Clr)));
        check(Step::Down, (0, Angle), Some((1, Angle)));
        check(Step::Down, (1, Angle), Some((2, Straight)));
        check(Step::Down, (2, Straight), None);
        check(Step::Up, (1, Angle), Some((0, Angle)));
        check(Step::Up, (1, Rotation), None);
        check(Step::Up, (2, Straight), Some((1, Straight)));
    }
}
