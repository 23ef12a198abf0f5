//! The report of measured pieces: for scripts as JSON, for people as text.

mod json;
mod text;

pub use json::first_off_to_json;
pub use text::first_off_to_text;

use elbowroom_bending::Machine;
use elbowroom_bending::first_off::job::Job;
use elbowroom_bending::first_off::{Tolerance, ToleranceChoice};
use elbowroom_bending::plan::Plan;

/// Measured pieces with what they were judged against.
#[derive(Clone, Copy, Debug)]
pub struct JudgedJob<'a> {
    /// The plan that the next piece follows.
    pub plan: &'a Plan,
    /// What they were judged by.
    pub tolerance: Tolerance,
    /// What of that was chosen and is not what is usual.
    pub chosen: ToleranceChoice,
    /// The machine that the next piece is bent on.
    pub machine: &'a Machine,
    /// What was found, and the program for the next piece.
    pub job: &'a Job,
}
