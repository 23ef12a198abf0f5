//! What a piece is off, point by point in the order of the drawing.

use std::fmt;

use elbowroom_bending::first_off::{Comparison, PointOff, Tolerance};
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::{LengthUnit, format_number};

/// A table of text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// The heads.
    pub head: [&'static str; 6],
    /// The rows.
    pub rows: Vec<Row>,
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its cells; the last one says whether it is out of tolerance.
    pub cells: [String; 6],
    /// Which cells are.
    pub out: [bool; 6],
}

/// Measured less drawn: each point with the straight before it and its bend. `drawn` gives for each bend its
/// number in the drawing, counted from 0.
pub(super) fn of(found: &Comparison, drawn: &[usize], tolerance: &Tolerance, unit: LengthUnit) -> Table {
    let mm = |mm: f64| signed_text(mm / unit.in_mm(), unit.decimals());
    let degrees = |angle: Angle| signed_text(angle.degrees(), 1);
    let row = |point: PointOff| {
        let (straight, rotation, angle) = (point.straight_off_mm, point.rotation_off, point.angle_off);
        let too_long = |mm: f64| mm.abs() > tolerance.length.mm();
        let too_wide = |off: Angle| off.abs() > tolerance.angle;
        let out = [
            false,
            too_long(point.off_mm),
            straight.is_some_and(too_long),
            rotation.is_some_and(too_wide),
            angle.is_some_and(too_wide),
            false,
        ];
        let cells = [
            point.name,
            format_number(point.off_mm / unit.in_mm(), unit.decimals()),
            straight.map(mm).unwrap_or_default(),
            rotation.map(degrees).unwrap_or_default(),
            angle.map(degrees).unwrap_or_default(),
            if out.contains(&true) { "out".to_owned() } else { String::new() },
        ];
        Row { cells, out }
    };
    Table {
        head: ["At", "Off", "Straight", "Rotation", "Angle", ""],
        rows: found.point_by_point(drawn).into_iter().map(row).collect(),
    }
}

/// A figure with its sign.
fn signed_text(value: f64, decimals: usize) -> String {
    let text = format_number(value, decimals);
    if value > 0.0 && text.chars().any(|digit| ('1'..='9').contains(&digit)) { format!("+{text}") } else { text }
}

impl fmt::Display for Table {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "off: {}", self.head.join(" | ").trim_end_matches([' ', '|']))?;
        for row in &self.rows {
            writeln!(out, "  {}", row.cells.join(" | ").trim_end_matches([' ', '|']))?;
        }
        Ok(())
    }
}
