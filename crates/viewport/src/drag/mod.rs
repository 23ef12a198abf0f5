//! Dragging a handle: planes, axes, snapping, typed numbers.

mod constraint;
mod held;
mod neighbours;
mod snap;

pub use constraint::Constraint;
pub use held::{Drag, Keys};
pub use neighbours::neighbours;
pub use snap::Neighbours;

pub use crate::pick::Knob;
