//! The first-off: what was measured against what was drawn, and the program for the next piece.
//!
//! [`job::Job`] is the whole of it: every piece that was bent and measured, each with the settings it was
//! bent by, what it is off the drawing, and the program for the next one.

pub mod as_trials;
mod comparison;
pub mod correction;
mod culprit;
mod doubt;
pub mod job;
pub mod piece;
mod plausible;
pub mod points;
mod read;
pub mod rigid_fit;

pub use comparison::{Comparison, LegsOff, PointOff, Tolerance, ToleranceChoice, compare};
pub use doubt::{AXES, MeasurementDoubt, WrongFigure, WrongPoint};
pub use plausible::{AsSet, BentFigure, Beyond};
pub use read::{radius_by_set_angle, read};
