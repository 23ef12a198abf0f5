//! Figures by their names, and groups of them.

use std::fmt;

use elbowroom_bending::forming::ground::Ground;
use elbowroom_geometry::units::format_number;

use crate::widgets::figure_text;

/// A figure by its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is.
    pub name: String,
    /// The figure with its unit.
    pub value: String,
    /// What it rests on.
    pub ground: Ground,
    /// Where it comes from, or what it means.
    pub note: String,
    /// Whether the note stands beneath it; else the pointer over the figure tells it.
    pub show_note: bool,
}

/// Figures that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// What they are about.
    pub title: &'static str,
    /// The figures.
    pub rows: Vec<Row>,
    /// What there is to say about all of them; empty where nothing.
    pub note: String,
    /// Whether it lies open until somebody closes it.
    pub open: bool,
}

impl Row {
    /// A figure whose note is told by the pointer.
    pub fn new(name: impl Into<String>, value: String, ground: Ground, note: impl Into<String>) -> Self {
        Self { name: name.into(), value, ground, note: note.into(), show_note: false }
    }

    /// The same with its note beneath it.
    #[must_use]
    pub fn noted(self) -> Self {
        Self { show_note: true, ..self }
    }
}

impl fmt::Display for Group {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}", self.title)?;
        for row in &self.rows {
            write!(out, "  {}: {}", row.name, figure_text(&row.value, row.ground))?;
            if row.note.is_empty() { writeln!(out)? } else { writeln!(out, " ({})", row.note)? }
        }
        if self.note.is_empty() { Ok(()) } else { writeln!(out, "  {}", self.note) }
    }
}

/// A share in percent.
pub(super) fn percent(share: f64) -> String {
    format!("{} %", format_number(share * 100.0, 1))
}
