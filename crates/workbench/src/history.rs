//! The steps taken, so that every one can be taken back to the bit.

use std::sync::Arc;

use elbowroom_bending::Part;

/// One step: what it is called, and the part on its other side.
struct Step {
    label: String,
    part: Arc<Part>,
}

/// Steps that can be taken back, and steps that can be made again. Unlimited: a step holds its part by
/// reference, so nothing is computed on the way back and nothing can come out different.
#[derive(Default)]
pub(crate) struct History {
    done: Vec<Step>,
    undone: Vec<Step>,
}

impl History {
    /// Notes a step that led away from `before`. What had been taken back is forgotten.
    pub fn push(&mut self, label: String, before: Arc<Part>) {
        self.undone.clear();
        self.done.push(Step { label, part: before });
    }

    /// Takes the last step back: gives the part before it, for the part `now` after it.
    pub fn undo(&mut self, now: &Arc<Part>) -> Option<Arc<Part>> {
        cross(&mut self.done, &mut self.undone, now)
    }

    /// Makes the step taken back last again: gives the part after it, for the part `now` before it.
    pub fn redo(&mut self, now: &Arc<Part>) -> Option<Arc<Part>> {
        cross(&mut self.undone, &mut self.done, now)
    }

    /// What undo would take back.
    pub fn undo_label(&self) -> Option<&str> {
        self.done.last().map(|step| step.label.as_str())
    }

    /// What redo would make again.
    pub fn redo_label(&self) -> Option<&str> {
        self.undone.last().map(|step| step.label.as_str())
    }
}

/// Moves the last step over, leaving the part on the side that is left.
fn cross(from: &mut Vec<Step>, to: &mut Vec<Step>, now: &Arc<Part>) -> Option<Arc<Part>> {
    let step = from.pop()?;
    to.push(Step { label: step.label, part: Arc::clone(now) });
    Some(step.part)
}
