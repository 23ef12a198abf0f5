//! How the keyboard moves from cell to cell.

use super::{Cell, Column};

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
    /// The cell it leads to in a table with so many bends, if there is one.
    pub fn from(self, cell: Cell, bends: usize) -> Option<Cell> {
        match self {
            Self::Down => below(cell, bends),
            Self::Up => (0..cell.row).rev().map(|row| Cell::new(row, cell.column)).find(|cell| cell.exists(bends)),
            Self::Next => in_order(bends, place(cell) + 1..4 * bends + 1).next(),
            Self::Back => in_order(bends, 0..place(cell)).next_back(),
        }
    }
}

/// The cell below; under the last bend that is the tail, whatever the column.
fn below(cell: Cell, bends: usize) -> Option<Cell> {
    match cell.row + 1 {
        row if row < bends => Some(Cell::new(row, cell.column)),
        row if row == bends => Some(Cell::new(row, Column::Straight)),
        _ => None,
    }
}

/// The place of a cell in reading order.
fn place(cell: Cell) -> usize {
    4 * cell.row + cell.column.index()
}

fn in_order(bends: usize, places: std::ops::Range<usize>) -> impl DoubleEndedIterator<Item = Cell> {
    places.map(|place| Cell::new(place / 4, Column::ALL[place % 4])).filter(move |cell| cell.exists(bends))
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
    use super::*;

    fn check(step: Step, from: (usize, Column), to: Option<(usize, Column)>) {
        let to = to.map(|(row, column)| Cell::new(row, column));
        assert_eq!(step.from(Cell::new(from.0, from.1), 2), to, "{step:?} from {from:?}");
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
