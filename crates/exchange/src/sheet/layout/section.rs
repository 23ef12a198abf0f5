//! What a sheet says, cut into pieces that are never torn apart and can be stacked wherever there is room.

use crate::sheet::ink::{Along, Area, At, Draw, FIRST, Face, Items, LINE, Pen, high, lines, wrapped};

/// The size of text, mm.
pub const TEXT: f64 = 2.75;
/// The size of headings, mm.
pub const HEADING: f64 = 3.6;
/// Between the pieces of a section, mm.
const BETWEEN: f64 = 0.9;

/// A piece, drawn from the top left corner of whatever takes it.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// How high it is, mm.
    pub height: f64,
    /// What it draws.
    pub items: Items,
}

/// How wide a section is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Breadth {
    /// All that is inside the frame.
    Full,
    /// One of two columns.
    Half,
}

/// A section under its heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The heading.
    pub title: String,
    /// How wide it is.
    pub breadth: Breadth,
    /// Whether it may stand in room that was left over before it.
    pub floats: bool,
    /// What stands under the heading again wherever it goes on: the head of a table.
    pub head: Option<Piece>,
    /// Its pieces in order.
    pub pieces: Vec<Piece>,
}

impl Section {
    /// A section without pieces.
    pub fn new(title: impl Into<String>, breadth: Breadth) -> Self {
        Self { title: title.into(), breadth, floats: false, head: None, pieces: Vec::new() }
    }
}

/// A heading with the line under it.
pub fn heading(title: &str, width: f64) -> Piece {
    let mut items = Items::new();
    let lines = wrapped(Face::Bold, HEADING, title, width);
    for (index, line) in lines.iter().enumerate() {
        let down = (FIRST + LINE * index as f64) * HEADING;
        items.text(At::new(0.0, down), Along::Begins, (Face::Bold, HEADING), line);
    }
    let under = high(HEADING, lines.len()) + 0.4;
    items.line(At::new(0.0, under), At::new(width, under), Pen::Narrow);
    Piece { height: under + 1.2, items }
}

/// Paragraphs that begin with a hanging head in a column of its own, such as `Mandrel nose`; each a piece, or several where it
/// is long.
pub fn hanging(paragraphs: &[(String, String)], head_width: f64, width: f64) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for (head, text) in paragraphs {
        let heads = wrapped(Face::Bold, TEXT, head, (head_width - 1.5).max(1.0));
        let texts = wrapped(Face::Regular, TEXT, text, width - head_width);
        let count = heads.len().max(texts.len());
        let mut from = 0;
        while from < count {
            let to = (from + MOST_LINES).min(count);
            let mut items = Items::new();
            let part = |all: &[String]| all[from.min(all.len())..to.min(all.len())].to_vec();
            lines(&mut items, Area::new(0.0, 0.0, head_width, 0.0), (Face::Bold, TEXT), &part(&heads));
            lines(
                &mut items,
                Area::new(head_width, 0.0, width - head_width, 0.0),
                (Face::Regular, TEXT),
                &part(&texts),
            );
            let last = to == count;
            pieces.push(Piece { height: high(TEXT, to - from) + if last { BETWEEN } else { 0.0 }, items });
            from = to;
        }
    }
    pieces
}

/// A piece of text that is longer is cut.
const MOST_LINES: usize = 8;

/// Paragraphs without heads.
pub fn paragraphs(texts: &[String], width: f64) -> Vec<Piece> {
    let plain: Vec<(String, String)> = texts.iter().map(|text| (String::new(), text.clone())).collect();
    hanging(&plain, 0.0, width)
}
