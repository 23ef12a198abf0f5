//! Figures as the scene shows them.

use elbowroom_geometry::Length;
use elbowroom_geometry::units::{LengthUnit, format_length};

/// A length as the scene shows it: to 0.1 mm, in other units to about as much.
pub fn length_text(length: Length, unit: LengthUnit) -> String {
    let decimals = match unit {
        LengthUnit::Millimetre => 1,
        LengthUnit::Centimetre => 2,
        LengthUnit::Inch => 3,
        LengthUnit::Metre | LengthUnit::Foot => 4,
    };
    format_length(length, unit, decimals)
}
