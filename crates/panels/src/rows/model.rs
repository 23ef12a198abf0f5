//! What the table shows.

use std::fmt;
use std::sync::Arc;

use elbowroom_bending::{Numbering, Part, Severity, Shop};
use elbowroom_geometry::units::{LengthUnit, format_number};
use elbowroom_geometry::{BendRow, Length};
use elbowroom_workbench::{Selection, Target, Workbench};

use super::{Cell, Column, Legs};

/// One bend with the straight before it, and how it is marked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Straight, rotation, angle and radius.
    pub bend: BendRow,
    /// How the row is marked.
    pub marks: Marks,
}

/// How a row is marked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Marks {
    /// The worst finding on the bend or on the straight before it.
    pub severity: Option<Severity>,
    /// Whether the bend is selected.
    pub bend_selected: bool,
    /// Whether the straight is selected.
    pub straight_selected: bool,
    /// Whether either lies under the pointer, here or elsewhere.
    pub hovered: bool,
}

/// What the table shows.
#[derive(Clone, Debug)]
pub struct Model {
    /// The bends.
    pub rows: Vec<Row>,
    /// The straight behind the last bend.
    pub tail: Length,
    /// How the tail is marked.
    pub tail_marks: Marks,
    /// How far the legs of a U lie apart; none where there is no U.
    pub legs: Option<Legs>,
    /// The ids of the bends and straights that are shown.
    pub nodes: Numbering,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The part without any preview, against which a typed value is tried.
    pub part: Arc<Part>,
    /// The shop, for the radius and straight of a new bend.
    pub shop: Arc<Shop>,
    /// What lies under the pointer.
    pub hover: Option<Target>,
    /// The row to bring into view when it changes.
    pub primary_row: Option<usize>,
    /// Whether a question waits, so that the clipboard is none of the table's business.
    pub question_open: bool,
}

impl Model {
    /// The table of the part that is shown.
    pub fn of(workbench: &Workbench) -> Self {
        let solved = workbench.solved();
        let path = &solved.form.path;
        let mut marks = vec![Marks::default(); path.rows().len() + 1];
        for finding in &solved.findings {
            for row in finding.places().filter_map(|place| place.bend.or(place.straight)) {
                with(&mut marks, row, |marks| marks.severity = marks.severity.max(Some(finding.severity)));
            }
        }
        for target in workbench.selection().targets() {
            match *target {
                Target::Straight(index) => with(&mut marks, index, |marks| marks.straight_selected = true),
                other => {
                    if let Some(index) = other.bend() {
                        with(&mut marks, index, |marks| marks.bend_selected = true);
                    }
                }
            }
        }
        if let Some(row) = workbench.hover().and_then(row_of) {
            with(&mut marks, row, |marks| marks.hovered = true);
        }
        let tail_marks = marks.pop().unwrap_or_default();
        Self {
            rows: path.rows().iter().zip(marks).map(|(bend, marks)| Row { bend: *bend, marks }).collect(),
            tail: path.tail(),
            tail_marks,
            legs: Legs::of(workbench),
            nodes: solved.nodes.clone(),
            unit: workbench.part().units,
            part: Arc::clone(workbench.committed_part()),
            shop: Arc::clone(workbench.shop()),
            hover: workbench.hover(),
            primary_row: primary_row(workbench.selection()),
            question_open: workbench.screen().question.is_some(),
        }
    }

    /// How many bends there are.
    pub fn bends(&self) -> usize {
        self.rows.len()
    }

    /// The marks of a row, the tail's included.
    pub fn marks(&self, row: usize) -> Marks {
        self.rows.get(row).map_or(self.tail_marks, |row| row.marks)
    }

    /// The bends that are selected, in order along the tube.
    pub fn selected_bends(&self) -> Vec<usize> {
        (0..self.bends()).filter(|row| self.rows[*row].marks.bend_selected).collect()
    }

    /// The text that a cell shows, without its unit; empty for a cell that does not exist.
    pub fn text(&self, cell: Cell) -> String {
        if !cell.exists(self.bends()) {
            return String::new();
        }
        let Some(row) = self.rows.get(cell.row) else { return self.length(self.tail) };
        match cell.column {
            Column::Straight => self.length(row.bend.straight),
            Column::Rotation => format_number(row.bend.rotation.degrees(), 1),
            Column::Angle => format_number(row.bend.angle.degrees(), 1),
            Column::Clr => self.length(row.bend.clr),
        }
    }

    fn length(&self, length: Length) -> String {
        format_number(length.mm() / self.unit.in_mm(), self.unit.decimals())
    }
}

fn with(marks: &mut [Marks], index: usize, change: impl FnOnce(&mut Marks)) {
    if let Some(marks) = marks.get_mut(index) {
        change(marks);
    }
}

fn row_of(target: Target) -> Option<usize> {
    match target {
        Target::Straight(index) => Some(index),
        other => other.bend(),
    }
}

fn primary_row(selection: &Selection) -> Option<usize> {
    selection.primary().and_then(row_of)
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(formatter, "   bend  straight  rotation  angle  CLR  ({})", self.unit.symbol())?;
        for row in 0..=self.bends() {
            let marks = self.marks(row);
            let number = if row == self.bends() { "tail".to_owned() } else { (row + 1).to_string() };
            let pointer = if marks.hovered { '>' } else { ' ' };
            let star = if marks.bend_selected { '*' } else { ' ' };
            write!(formatter, "{pointer}{star} {number}")?;
            for column in Column::ALL {
                let text = self.text(Cell::new(row, column));
                let star = if column == Column::Straight && marks.straight_selected { "*" } else { "" };
                if !text.is_empty() {
                    write!(formatter, "  {text}{star}")?;
                } else if row < self.bends() {
                    write!(formatter, "  –")?;
                }
            }
            match marks.severity {
                Some(severity) => writeln!(formatter, "  [{}]", severity.word())?,
                None => writeln!(formatter)?,
            }
        }
        self.legs.as_ref().map_or(Ok(()), |legs| legs.fmt(formatter))
    }
}
