//! The typed refusal with which constructors turn away numbers.

use thiserror::Error;

/// A number that was turned away at the door: which field, what it was, what it may be.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("{field} is {was}; it must be {may_be}")]
pub struct Refusal {
    /// The field in words a person knows, with its place, such as `vertex 3, y`.
    pub field: String,
    /// What it was, as text with its unit.
    pub was: String,
    /// What it may be.
    pub may_be: String,
}

impl Refusal {
    /// Builds a refusal from its three parts.
    pub fn new(field: impl Into<String>, was: impl Into<String>, may_be: impl Into<String>) -> Self {
        Self { field: field.into(), was: was.into(), may_be: may_be.into() }
    }
}

/// Passes a finite millimetre value within `low..=high`, or refuses it under the name `field`.
pub(crate) fn guard_mm(field: impl FnOnce() -> String, value_mm: f64, low: f64, high: f64) -> Result<(), Refusal> {
    if value_mm.is_finite() && value_mm >= low && value_mm <= high {
        return Ok(());
    }
    Err(Refusal::new(field(), format!("{value_mm} mm"), format!("a number from {low} to {high} mm")))
}
