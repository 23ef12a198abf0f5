//! Entities follow the workbench, one way, found again by what they are.

mod fixture;
mod fixtures;
mod floor;
mod ghost;
mod hidden;
mod lines;
mod long;
mod meshes;
mod obstacles;
mod others;
mod proposal;
mod seam;
mod shadow;
mod shapes;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod tests_of_long;
#[cfg(test)]
mod tests_of_others;
mod tube;

pub use fixtures::{clamp_block, follow_fixtures};
pub use floor::{follow_floor, seen_step_mm, spawn_floor};
pub use ghost::follow_ghost;
pub use lines::{LinesOnTop, SceneLines, draw_lines, least_room, set_up_lines, solid};
pub use long::{LongSkin, follow_long_part};
pub use obstacles::follow_obstacles;
pub use others::{Others, dress_others, follow_others};
pub use proposal::follow_proposal;
pub use seam::follow_seam;
pub use shadow::Shadow;
pub use shapes::Shapes;
#[cfg(test)]
pub use tests::{app as app_of_bends, perform};
pub use tube::{dress_stretches, follow_part};
