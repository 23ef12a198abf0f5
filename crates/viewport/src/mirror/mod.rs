//! Entities follow the workbench, one way, found again by what they are.

mod fixtures;
mod floor;
mod lines;
mod shadow;
mod shapes;
#[cfg(test)]
mod tests;
mod tube;

pub use fixtures::{Fixture, clamp_block, follow_fixtures};
pub use floor::{follow_floor, spawn_floor};
pub use lines::{SceneLines, draw_lines, set_up_lines};
pub use shadow::Shadow;
pub use shapes::Shapes;
pub use tube::{dress_stretches, follow_part};
