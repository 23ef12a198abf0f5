//! What becomes of a task.

/// What became of a task that ran to its end.
pub enum Outcome {
    /// Nothing is at stop.
    Passes,
    /// At least one finding is at stop.
    Stopped,
}
