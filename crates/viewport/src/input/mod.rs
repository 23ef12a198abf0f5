//! Mouse and keys over the scene.

mod events;
mod hand;
#[cfg(test)]
mod tests;

use bevy::math::Vec2;
use elbowroom_bending::{Part, Shop, Solved};
use elbowroom_workbench::{Selection, Target};

pub use events::read_hand;
pub use hand::{Act, Button, Hand};

use crate::SceneArea;
use crate::camera::View;
use crate::pick::{Bystander, Knob};

/// What surrounds the hand in a frame.
pub struct Around<'a> {
    /// Eye and scene area.
    pub view: View,
    /// The part that is shown.
    pub part: &'a Part,
    /// The part, solved.
    pub solved: &'a Solved,
    /// All its handles.
    pub knobs: &'a [Knob],
    /// The tubes that are shown beside it.
    pub others: &'a [Bystander<'a>],
    /// The shop.
    pub shop: &'a Shop,
    /// What is selected.
    pub selection: &'a Selection,
    /// What lies under the pointer, as was last said.
    pub hover: Option<Target>,
    /// Whether shift is held.
    pub shift: bool,
    /// Whether the key for snapping is held.
    pub snap: bool,
    /// The time, seconds.
    pub now_s: f64,
}

impl Around<'_> {
    /// The scene's part of the window.
    pub fn area(&self) -> &SceneArea {
        &self.view.area
    }

    /// Whether a place in the window (logical pixels) belongs to the scene.
    pub fn has(&self, at: Vec2) -> bool {
        self.area().pointer_inside && self.view.has(at)
    }
}
