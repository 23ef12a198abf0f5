//! Prints lengths and angles, rounded for the screen or in full for files and fields.

use super::{LengthUnit, Shown};
use crate::{Angle, Length};

/// A number with so many decimals and never a negative zero.
pub fn format_number(value: f64, decimals: usize) -> String {
    Shown::new(value, decimals, "").to_string()
}

/// A number as a message tells it: all its digits, and short whatever its size, such as `1e300`.
pub fn format_any(value: f64) -> String {
    let plain = value == 0.0 || !value.is_finite() || (1e-6..1e15).contains(&value.abs());
    if plain { value.to_string() } else { format!("{value:e}") }
}

/// A length with so many decimals and its unit, such as `12.5 mm`.
pub fn format_length(length: Length, unit: LengthUnit, decimals: usize) -> String {
    Shown::new(length.mm() / unit.in_mm(), decimals, unit.behind_number()).to_string()
}

/// A length with all its digits, which [`parse_length`](super::parse_length) reads back to the bit.
///
/// Some lengths fall between two numbers of the wanted unit; those are written in millimetres.
pub fn format_length_exact(length: Length, unit: LengthUnit) -> String {
    let factor = unit.in_mm();
    let near = length.mm() / factor;
    match [near, near.next_up(), near.next_down()].into_iter().find(|value| value * factor == length.mm()) {
        Some(value) => format!("{value} {}", unit.symbol()),
        None => format!("{} mm", length.mm()),
    }
}

/// A length to the nearest sixteenth of an inch, such as `1 3/4"`.
pub fn format_inch_fraction(length: Length) -> String {
    let sixteenths = (length.mm() / LengthUnit::Inch.in_mm() * 16.0).round();
    if !sixteenths.is_finite() || sixteenths.abs() > 1e15 {
        return format_length(length, LengthUnit::Inch, 4);
    }
    let sign = if sixteenths < 0.0 { "-" } else { "" };
    let (whole, mut above) = (sixteenths.abs() as u64 / 16, sixteenths.abs() as u64 % 16);
    let mut below = 16;
    while above != 0 && above % 2 == 0 {
        (above, below) = (above / 2, below / 2);
    }
    match (whole, above) {
        (_, 0) => format!("{sign}{whole}\""),
        (0, _) => format!("{sign}{above}/{below}\""),
        _ => format!("{sign}{whole} {above}/{below}\""),
    }
}

/// An angle with so many decimals, such as `22.5°`.
pub fn format_angle(angle: Angle, decimals: usize) -> String {
    format!("{}°", format_number(angle.degrees(), decimals))
}

/// An angle with all its digits, which [`parse_angle`](super::parse_angle) reads back to the bit.
///
/// Some angles fall between two numbers of degrees (see [`Angle::degrees_exact`]); those are written in
/// radians.
pub fn format_angle_exact(angle: Angle) -> String {
    let degrees = angle.degrees_exact();
    if Angle::from_degrees(degrees) == angle { format!("{degrees}°") } else { format!("{} rad", angle.radians()) }
}
