//! How things look: materials, their shaders, and the colours of the theme.

mod floor;
mod grain;
mod paint;
mod paints;

pub use floor::{Floor, FloorUniform};
pub use grain::{Grain, REPEATS, repeat_mm, seamless_mm};
pub use paint::{Lit, Paint, linear, opacity};
pub use paints::{Paints, Wearer, follow_grain, follow_theme};

use bevy::asset::embedded_asset;
use bevy::prelude::*;

/// Puts the shaders into the program.
pub fn embed_shaders(app: &mut App) {
    embedded_asset!(app, "scene.wgsl");
    embedded_asset!(app, "grid.wgsl");
}
