//! Tables whose columns are as wide as what stands in them, and never wider than there is room.

use super::section::{Piece, TEXT};
use crate::sheet::ink::{Along, Area, At, Draw, FIRST, Face, Items, LINE, Pen, high, wrapped};

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words, from the left.
    Words(String),
    /// A figure, to the right.
    Figure(String),
    /// An empty box to write into.
    Box,
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What stands over the columns.
    pub head: Vec<String>,
    /// The rows, each with as many cells.
    pub rows: Vec<Vec<Cell>>,
}

/// Beside what stands in a cell, mm.
const BESIDE: f64 = 1.1;
/// Above and below it, mm.
const ABOVE: f64 = 0.55;
/// An empty box: how wide at least, and how high, so that a hand can write into it, mm.
const BOX: [f64; 2] = [14.0, 6.2];
/// The smallest letters, mm.
const SMALLEST: f64 = 1.7;

impl Cell {
    fn text(&self) -> &str {
        match self {
            Self::Words(text) | Self::Figure(text) => text,
            Self::Box => "",
        }
    }
}

/// How wide a text is, and how wide its widest word.
fn widths(face: Face, size: f64, text: &str) -> [f64; 2] {
    let text = face.printable(text);
    let word = text.split_whitespace().map(|word| face.width(word, size)).fold(0.0, f64::max);
    [face.width(&text, size), word]
}

impl Table {
    /// How wide each column would be, and how narrow it may be.
    fn natural(&self, size: f64) -> Vec<[f64; 2]> {
        let column = |(index, head): (usize, &String)| {
            let [_, head_word] = widths(Face::Bold, size, head);
            let mut most = [head_word, head_word];
            for row in &self.rows {
                let cell = row.get(index);
                let [whole, word] = widths(Face::Regular, size, cell.map_or("", Cell::text));
                // A figure is never broken.
                let least = if matches!(cell, Some(Cell::Words(_))) { word } else { whole };
                let (whole, least) = if cell == Some(&Cell::Box) { (BOX[0], BOX[0]) } else { (whole, least) };
                most = [most[0].max(whole), most[1].max(least)];
            }
            most.map(|width| width + 2.0 * BESIDE)
        };
        self.head.iter().enumerate().map(column).collect()
    }

    /// The widths of the columns and the size of the letters at which they fit a width.
    fn fitted(&self, width: f64) -> (Vec<f64>, f64) {
        let mut size = TEXT;
        loop {
            let natural = self.natural(size);
            let [whole, least] = [0, 1].map(|of| natural.iter().map(|column| column[of]).sum::<f64>());
            if whole <= width {
                let spare = width - whole;
                return (natural.iter().map(|[column, _]| column + spare * column / whole.max(1.0)).collect(), size);
            }
            if least <= width {
                let share = (width - least) / (whole - least).max(1e-9);
                return (natural.iter().map(|[most, least]| least + (most - least) * share).collect(), size);
            }
            if size <= SMALLEST {
                return (natural.iter().map(|[_, least]| least * width / least_sum(&natural)).collect(), size);
            }
            size = (size - 0.1).max(SMALLEST);
        }
    }

    /// The head, and a piece a row.
    pub fn pieces(&self, width: f64) -> (Piece, Vec<Piece>) {
        let (columns, size) = self.fitted(width);
        let heads: Vec<Vec<String>> = self
            .head
            .iter()
            .zip(&columns)
            .map(|(head, column)| wrapped(Face::Bold, size, head, column - 2.0 * BESIDE))
            .collect();
        let figures = |index: usize| {
            self.rows.first().and_then(|row| row.get(index)).is_some_and(|cell| matches!(cell, Cell::Figure(_)))
        };
        let count = heads.iter().map(Vec::len).max().unwrap_or(0);
        let mut items = Items::new();
        let head_high = high(size, count) + 2.0 * ABOVE;
        let mut x = 0.0;
        for (index, (head, column)) in heads.iter().zip(&columns).enumerate() {
            // Heads stand on the line under them.
            let top = ABOVE + high(size, count - head.len());
            put(&mut items, Area::new(x, top, *column, 0.0), (Face::Bold, size), head, figures(index));
            x += column;
        }
        items.line(At::new(0.0, head_high), At::new(width, head_high), Pen::Wide);
        let head = Piece { height: head_high, items };
        (head, self.rows.iter().map(|row| row_piece(row, &columns, size, width)).collect())
    }
}

fn least_sum(natural: &[[f64; 2]]) -> f64 {
    natural.iter().map(|[_, least]| least).sum::<f64>().max(1e-9)
}

fn put(items: &mut Items, area: Area, (face, size): (Face, f64), texts: &[String], to_the_right: bool) {
    for (index, text) in texts.iter().enumerate() {
        let y = area.y + (FIRST + LINE * index as f64) * size;
        if to_the_right {
            items.text(At::new(area.right() - BESIDE, y), Along::Ends, (face, size), text);
        } else {
            items.text(At::new(area.x + BESIDE, y), Along::Begins, (face, size), text);
        }
    }
}

fn row_piece(row: &[Cell], columns: &[f64], size: f64, width: f64) -> Piece {
    let texts: Vec<Vec<String>> = row
        .iter()
        .zip(columns)
        .map(|(cell, column)| wrapped(Face::Regular, size, cell.text(), column - 2.0 * BESIDE))
        .collect();
    let count = texts.iter().map(Vec::len).max().unwrap_or(1).max(1);
    let boxed = row.contains(&Cell::Box);
    let text_high = high(size, count) + 2.0 * ABOVE;
    let height = if boxed { text_high.max(BOX[1]) } else { text_high };
    let mut items = Items::new();
    let mut x = 0.0;
    for ((cell, column), text) in row.iter().zip(columns).zip(&texts) {
        let top = (height - high(size, text.len())) / 2.0;
        match cell {
            Cell::Words(_) => put(
                &mut items,
                Area::new(x, if boxed { top } else { ABOVE }, *column, 0.0),
                (Face::Regular, size),
                text,
                false,
            ),
            Cell::Figure(_) => put(
                &mut items,
                Area::new(x, if boxed { top } else { ABOVE }, *column, 0.0),
                (Face::Regular, size),
                text,
                true,
            ),
            Cell::Box => items.frame(Area::new(x + 0.6, 0.5, column - 1.2, height - 1.0), Pen::Narrow),
        }
        x += column;
    }
    items.line(At::new(0.0, height), At::new(width, height), Pen::Narrow);
    Piece { height, items }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::ink::Item;

    #[test]
    fn a_table_keeps_within_its_width_whatever_stands_in_it() {
        let words = |text: &str| Cell::Words(text.into());
        let figure = |text: &str| Cell::Figure(text.into());
        for long in
            ["2D", "a die set with a name that goes on", "Donaudampfschifffahrtsgesellschaftskapitänsmützenband"]
        {
            let table = Table {
                head: vec!["Step".into(), "Feed".into(), "Free angle".into(), "Die".into(), "Measured".into()],
                rows: vec![
                    vec![figure("1"), figure("~1234.5"), figure("90.0"), words(long), Cell::Box],
                    vec![figure("12"), figure("4.5"), figure("190.0"), words("1.5D"), Cell::Box],
                ],
            };
            for width in [30.0, 60.0, 127.0, 260.0] {
                let (head, rows) = table.pieces(width);
                for piece in std::iter::once(&head).chain(&rows) {
                    let area = Area::new(0.0, 0.0, width, piece.height);
                    let outside = piece.items.iter().filter_map(Item::area).find(|item| !area.holds(item));
                    assert!(outside.is_none() || width < 50.0, "{width} {long}: {outside:?}");
                }
            }
        }
    }
}
