//! The bevy scene: entities are a shadow of the solved part, and can be dropped and rebuilt at any time.
//!
//! The window writes [`SceneArea`], the scene writes [`Wishes`], [`SceneKeys`], [`SceneLabels`], [`SceneSigns`] and [`Compass`]; what is wished is
//! performed on the [`Desk`] once a frame in [`Step::Perform`], and [`Step::Mirror`] then makes the entities follow, in
//! the same frame. The scene never changes the workbench by itself.

mod camera;
mod drag;
mod figure;
mod input;
mod interface;
mod labels;
mod look;
mod marks;
mod mirror;
mod pick;
mod place;
mod plugin;
mod seen;
mod signs;

pub use interface::{
    Compass, Desk, MenuWish, SceneArea, SceneBox, SceneKeys, SceneLabel, SceneLabels, SceneSign, SceneSigns, Step,
    ViewWishes, Wishes,
};
pub use marks::Mark;
pub use plugin::ViewportPlugin;
pub use seen::Look;
