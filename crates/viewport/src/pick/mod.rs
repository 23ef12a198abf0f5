//! What lies under the pointer, found by casting rays in `f64`.

mod follow;
mod knobs;
mod ray;
mod target;
mod tube;

pub use follow::{choose_knobs, follow_knobs};
#[cfg(test)]
pub use knobs::knobs;
pub use knobs::{CROWD, Knob, Knobs, in_reach};
pub use ray::Ray;
pub use target::{Bystander, Hit, pick};
pub use tube::{TubeHit, pick_tube};
