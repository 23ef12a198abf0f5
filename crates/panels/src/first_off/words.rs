//! Figures of the corrected program in the part's unit, unsure ones with their mark.

use elbowroom_bending::setup::UNSURE_MARK;
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length, format_number};
use elbowroom_geometry::{Angle, Length};

/// How figures are written.
#[derive(Clone, Copy)]
pub(super) struct Words {
    /// The part's unit.
    pub unit: LengthUnit,
}

impl Words {
    /// A length without its unit, for a table.
    pub fn bare(self, length: Length, unsure: bool) -> String {
        mark(unsure) + &format_number(length.mm() / self.unit.in_mm(), self.unit.decimals())
    }

    /// A length with its unit.
    pub fn length(self, length: Length, unsure: bool) -> String {
        mark(unsure) + &format_length(length, self.unit, self.unit.decimals())
    }

    /// An angle.
    pub fn angle(self, angle: Angle, unsure: bool) -> String {
        mark(unsure) + &format_angle(angle, 1)
    }

    /// A rotation, its sign always shown, so that nobody takes it for a size.
    pub fn rotation(self, angle: Angle) -> String {
        let text = format_angle(angle, 1);
        if text.starts_with('-') || text == "0.0°" { text } else { format!("+{text}") }
    }
}

fn mark(unsure: bool) -> String {
    if unsure { UNSURE_MARK.to_owned() } else { String::new() }
}
