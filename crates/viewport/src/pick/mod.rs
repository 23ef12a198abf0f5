//! What lies under the pointer, found by casting rays in `f64`.

mod ray;
mod target;
mod tube;

pub use ray::Ray;
pub use target::{Bystander, Hit, Knob, knobs, pick};
pub use tube::{TubeHit, pick_tube};
