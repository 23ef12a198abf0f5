//! The bevy scene: entities are a shadow of the solved part, and can be dropped and rebuilt at any time.
//!
//! The window writes [`SceneArea`], the scene writes [`Wishes`] and [`SceneLabels`]; what is wished is
//! performed on the [`Desk`] once a frame in [`Step::Perform`], and [`Step::Mirror`] then makes the
//! entities follow, in the same frame.

mod interface;

pub use interface::{Desk, SceneArea, SceneLabel, SceneLabels, Step, ViewWishes, Wishes};
