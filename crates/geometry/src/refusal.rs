//! The typed refusal with which constructors turn away numbers.

use std::fmt;

use thiserror::Error;

use crate::units::{LengthUnit, format_any};
use crate::{Length, MOST_BENDS};

/// A number that was turned away at the door: which field, what it was, what it may be.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("{field} is {was}; it must be {may_be}")]
pub struct Refusal {
    /// The field in words a person knows, with its place, such as `vertex 3, y`.
    pub field: String,
    /// What it was, with its unit.
    pub was: Told,
    /// What it may be.
    pub may_be: Told,
}

/// Words with lengths between them. Files and logs read them in millimetres with all digits.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told(Vec<Piece>);

/// A piece of what is told.
#[derive(Clone, Debug, PartialEq)]
enum Piece {
    Words(String),
    Length(Length),
}

impl Refusal {
    /// Builds a refusal from its three parts.
    pub fn new(field: impl Into<String>, was: impl Into<Told>, may_be: impl Into<Told>) -> Self {
        Self { field: field.into(), was: was.into(), may_be: may_be.into() }
    }

    /// Says whose field it is, such as `trial 2`.
    #[must_use]
    pub fn of(mut self, whose: impl fmt::Display) -> Self {
        self.field = format!("{} of {whose}", self.field);
        self
    }

    /// Turns away a length that is not a finite one from `low` to `high`.
    pub fn out_of(field: impl Into<String>, was: Length, low: Length, high: Length) -> Self {
        let may_be = Told::from("a number from ").and_length(low).and(" to ").and_length(high);
        Self::new(field, was, may_be)
    }

    /// The refusal with its lengths in the unit that a person reads.
    pub fn said(&self, unit: LengthUnit) -> String {
        format!("{} is {}; it must be {}", self.field, self.was.said(unit), self.may_be.said(unit))
    }
}

impl Told {
    /// Goes on with words.
    #[must_use]
    pub fn and(mut self, words: impl Into<String>) -> Self {
        self.0.push(Piece::Words(words.into()));
        self
    }

    /// Goes on with a length.
    #[must_use]
    pub fn and_length(mut self, length: Length) -> Self {
        self.0.push(Piece::Length(length));
        self
    }

    /// The words with their lengths in a unit.
    pub fn said(&self, unit: LengthUnit) -> String {
        if unit == LengthUnit::Millimetre {
            return self.to_string();
        }
        let piece = |piece: &Piece| match piece {
            Piece::Words(words) => words.clone(),
            Piece::Length(length) if length.mm().abs() < 1e12 => unit.shown(length.mm()).to_string(),
            Piece::Length(length) => format!("{} {}", format_any(length.mm() / unit.in_mm()), unit.symbol()),
        };
        self.0.iter().map(piece).collect()
    }
}

impl fmt::Display for Told {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|piece| match piece {
            Piece::Words(words) => out.write_str(words),
            Piece::Length(length) => write!(out, "{} mm", format_any(length.mm())),
        })
    }
}

impl From<&str> for Told {
    fn from(words: &str) -> Self {
        Self::default().and(words)
    }
}

impl From<String> for Told {
    fn from(words: String) -> Self {
        Self::default().and(words)
    }
}

impl From<Length> for Told {
    fn from(length: Length) -> Self {
        Self::default().and_length(length)
    }
}

/// Passes as many bends as a tube can have.
pub(crate) fn guard_bends(count: usize) -> Result<(), Refusal> {
    if count <= MOST_BENDS {
        return Ok(());
    }
    Err(Refusal::new("the number of bends", count.to_string(), format!("{MOST_BENDS} or fewer")))
}

/// Passes a finite millimetre value within `low..=high`, or refuses it under the name `field`.
pub(crate) fn guard_mm(field: impl FnOnce() -> String, value_mm: f64, low: f64, high: f64) -> Result<(), Refusal> {
    if value_mm.is_finite() && value_mm >= low && value_mm <= high {
        return Ok(());
    }
    Err(Refusal::out_of(field(), Length::from_mm(value_mm), Length::from_mm(low), Length::from_mm(high)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_said_in_the_unit_of_the_reader() {
        let refusal = Refusal::out_of("the CLR of bend 2", Length::from_mm(-25.4), Length::ZERO, Length::from_mm(1e5));
        assert_eq!(refusal.to_string(), "the CLR of bend 2 is -25.4 mm; it must be a number from 0 mm to 100000 mm");
        assert_eq!(refusal.said(LengthUnit::Millimetre), refusal.to_string());
        let inches = "the CLR of bend 2 is -1.000 in; it must be a number from 0.000 in to 3937.008 in";
        assert_eq!(refusal.said(LengthUnit::Inch), inches);
        let far = Refusal::out_of("x", Length::from_mm(2.54e300), Length::ZERO, Length::from_mm(f64::INFINITY));
        assert_eq!(far.to_string(), "x is 2.54e300 mm; it must be a number from 0 mm to inf mm");
        assert!(far.said(LengthUnit::Inch).len() < 70, "{}", far.said(LengthUnit::Inch));
        let nothing = Refusal::new("the handle", "on bend 3", "one that the part has");
        assert_eq!(nothing.said(LengthUnit::Inch), nothing.to_string());
    }
}
