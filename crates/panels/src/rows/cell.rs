//! One cell of the table: where it is, what it is called, and what a text typed into it means.

use elbowroom_bending::text::sentence;
use elbowroom_bending::{Edit, Numbering};
use elbowroom_geometry::units::{EntryError, LengthUnit, parse_angle, parse_length};

/// A column of the table, in trade order.
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
}

impl Column {
    /// All columns, from left to right.
    pub const ALL: [Self; 4] = [Self::Straight, Self::Rotation, Self::Angle, Self::Clr];

    /// The heading.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Straight => "Straight",
            Self::Rotation => "Rotation",
            Self::Angle => "Angle",
            Self::Clr => "CLR",
        }
    }

    /// The name within a sentence.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Rotation => "rotation",
            Self::Angle => "angle",
            Self::Clr => "CLR",
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
        }
    }

    /// Whether the column holds lengths; the others hold angles.
    pub const fn is_length(self) -> bool {
        matches!(self, Self::Straight | Self::Clr)
    }

    /// Its place from the left, counted from 0.
    pub const fn index(self) -> usize {
        self as usize
    }
}

/// A cell by its row, counted from 0, and column. The row after the last bend is the tail's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Cell {
    /// The bend, or the number of bends for the tail.
    pub row: usize,
    /// The column.
    pub column: Column,
}

impl Cell {
    /// The cell in a row and column.
    pub const fn new(row: usize, column: Column) -> Self {
        Self { row, column }
    }

    /// Whether a table with so many bends has this cell. The first bend has no rotation to type.
    pub const fn exists(self, bends: usize) -> bool {
        match self.column {
            Column::Straight => self.row <= bends,
            Column::Rotation => self.row > 0 && self.row < bends,
            Column::Angle | Column::Clr => self.row < bends,
        }
    }

    /// What a screen reader calls it.
    pub fn label(self, bends: usize) -> String {
        if self.row == bends {
            "tail straight".to_owned()
        } else {
            format!("bend {} {}", self.row + 1, self.column.name())
        }
    }

    /// The name egui knows it by.
    pub fn id(self) -> egui::Id {
        egui::Id::new(("rows cell", self.row, self.column))
    }

    /// The edit that a text typed into this cell of a part asks for.
    ///
    /// # Errors
    /// Says what cannot be read, at which character.
    pub fn edit(self, text: &str, nodes: &Numbering, unit: LengthUnit) -> Result<Edit, EntryError> {
        Ok(match self.column {
            Column::Straight => Edit::SetStraight(nodes.straight(self.row), parse_length(text, unit)?),
            Column::Rotation => Edit::SetRotation(nodes.bend(self.row), parse_angle(text)?),
            Column::Angle => Edit::SetAngle(nodes.bend(self.row), parse_angle(text)?),
            Column::Clr => Edit::SetClr(nodes.bend(self.row), parse_length(text, unit)?),
        })
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use elbowroom_geometry::{Angle, Length};

    use super::*;

    #[test]
    fn text_becomes_an_edit() {
        let unit = LengthUnit::Millimetre;
        let rows = [10.0, 20.0, 30.0].map(|angle| elbowroom_bending::specimen::row(100.0, 0.0, angle));
        let nodes = elbowroom_bending::specimen::part(rows.to_vec(), 100.0).unwrap().numbering();
        let edit = |row, column, text| Cell::new(row, column).edit(text, &nodes, unit).unwrap();
        assert_eq!(edit(2, Column::Straight, "60+12.5"), Edit::SetStraight(nodes.straight(2), Length::from_mm(72.5)));
        assert_eq!(edit(1, Column::Rotation, "-90"), Edit::SetRotation(nodes.bend(1), Angle::from_degrees(-90.0)));
        assert_eq!(edit(0, Column::Angle, "45°"), Edit::SetAngle(nodes.bend(0), Angle::from_degrees(45.0)));
        assert_eq!(edit(0, Column::Clr, "3 in"), Edit::SetClr(nodes.bend(0), Length::from_mm(3.0 * 25.4)));
    }

    #[test]
    fn an_error_points_at_its_character() {
        let nodes = elbowroom_bending::specimen::part(Vec::new(), 100.0).unwrap().numbering();
        let error = Cell::new(0, Column::Straight).edit("60+furlong", &nodes, LengthUnit::Millimetre).unwrap_err();
        assert_eq!(error.at, 3);
    }

    #[test]
    fn the_first_bend_has_no_rotation_and_the_tail_only_a_straight() {
        let exists = |row, column| Cell::new(row, column).exists(3);
        assert!(!exists(0, Column::Rotation) && exists(1, Column::Rotation));
        assert!(exists(3, Column::Straight) && !exists(3, Column::Angle) && !exists(4, Column::Straight));
    }
}
