//! The report of a measured first-off: for scripts as JSON, for people as text.

mod json;
mod text;

pub use json::first_off_to_json;
pub use text::first_off_to_text;

use elbowroom_bending::first_off::{MeasurementDoubt, Tolerance};
use elbowroom_bending::measurement::FirstOff;
use elbowroom_bending::plan::Plan;

/// A measured first-off with what it was judged against.
#[derive(Clone, Copy, Debug)]
pub struct JudgedPart<'a> {
    /// The plan it was bent by.
    pub plan: &'a Plan,
    /// What it was judged by.
    pub tolerance: Tolerance,
    /// What was found, or why the measurement is doubted.
    pub first_off: &'a Result<FirstOff, MeasurementDoubt>,
}
