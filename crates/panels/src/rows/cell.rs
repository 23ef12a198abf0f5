//! One cell of the table: where it is, what it is called, and what a text typed into it means.

use elbowroom_bending::text::sentence;
use elbowroom_geometry::units::EntryError;
use elbowroom_workbench::Table;

/// A column of the table, of rows in trade order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Column {
    /// The straight before the bend.
    Straight,
    /// Rotation since the last bend plane.
    Rotation,
    /// Bend angle.
    Angle,
    /// Centreline radius.
    Clr,
    /// First coordinate.
    X,
    /// Second coordinate.
    Y,
    /// Third coordinate.
    Z,
}

impl Column {
    /// The columns of a table, from left to right.
    pub const fn of(table: Table) -> [Self; 4] {
        match table {
            Table::Rows => [Self::Straight, Self::Rotation, Self::Angle, Self::Clr],
            Table::Points => [Self::X, Self::Y, Self::Z, Self::Clr],
        }
    }

    /// The heading.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Straight => "Straight",
            Self::Rotation => "Rotation",
            Self::Angle => "Angle",
            Self::Clr => "CLR",
            Self::X => "x",
            Self::Y => "y",
            Self::Z => "z",
        }
    }

    /// The name within a sentence.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Rotation => "rotation",
            Self::Angle => "angle",
            Self::Clr => "CLR",
            Self::X => "x",
            Self::Y => "y",
            Self::Z => "z",
        }
    }

    /// What it means, for a tooltip.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Straight => "The straight before the bend, from tangent point to tangent point",
            Self::Rotation => {
                "How far the tube is turned since the last bend; positive is clockwise seen from the chuck looking to the die"
            }
            Self::Angle => "How far the tube is bent; 0° is no bend",
            Self::Clr => "Centreline radius of the bend",
            Self::X | Self::Y | Self::Z => {
                "A coordinate of the drawing, on the centreline: of an end, or of where the straights of a bend would meet"
            }
        }
    }

    /// Whether the column holds lengths; the others hold angles.
    pub const fn is_length(self) -> bool {
        !matches!(self, Self::Rotation | Self::Angle)
    }

    /// Its place from the left, counted from 0.
    pub const fn index(self) -> usize {
        match self {
            Self::Straight | Self::X => 0,
            Self::Rotation | Self::Y => 1,
            Self::Angle | Self::Z => 2,
            Self::Clr => 3,
        }
    }

    /// The coordinate that it holds, counted from 0.
    pub const fn axis(self) -> Option<usize> {
        match self {
            Self::X => Some(0),
            Self::Y => Some(1),
            Self::Z => Some(2),
            Self::Straight | Self::Rotation | Self::Angle | Self::Clr => None,
        }
    }
}

/// A cell by its row, counted from 0, and column. The row after the last bend is the tail's; of points each has one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Cell {
    /// The bend, or the number of bends for the tail; or the point.
    pub row: usize,
    /// The column.
    pub column: Column,
}

impl Cell {
    /// The cell in a row and column.
    pub const fn new(row: usize, column: Column) -> Self {
        Self { row, column }
    }

    /// The name egui knows it by.
    pub fn id(self) -> egui::Id {
        egui::Id::new(("rows cell", self.row, self.column))
    }
}

/// Why a typed text is not taken.
#[derive(Clone, Debug, PartialEq)]
pub enum CellError {
    /// It cannot be read.
    Unreadable(EntryError),
    /// It can be read, but the part refuses it.
    Refused(String),
}

impl CellError {
    /// The character at which it goes wrong, counted from 0.
    pub fn at(&self) -> Option<usize> {
        match self {
            Self::Unreadable(error) => Some(error.at),
            Self::Refused(_) => None,
        }
    }

    /// What is wrong.
    pub fn what(&self) -> String {
        match self {
            Self::Unreadable(error) => sentence(&error.what),
            Self::Refused(reason) => sentence(reason),
        }
    }

    /// What would be right; empty where `what` says it.
    pub fn would_be_right(&self) -> String {
        match self {
            Self::Unreadable(error) => sentence(&error.would_be_right),
            Self::Refused(_) => String::new(),
        }
    }
}
