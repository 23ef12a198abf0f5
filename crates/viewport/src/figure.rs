//! Figures as the scene shows them.

use elbowroom_geometry::units::{LengthUnit, format_length};
use elbowroom_geometry::{Length, Point3};

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

/// A place in the drawing, such as `x 120.0, y 0.0, z 35.5 mm`.
pub fn place_text(point: &Point3<f64>, unit: LengthUnit) -> String {
    let [x, y, z] = [point.x, point.y, point.z].map(|mm| unit.bare(mm).to_string());
    format!("x {x}, y {y}, z {z} {}", unit.symbol())
}
