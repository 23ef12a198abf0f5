//! Mouse and keys over the scene.

mod events;
mod hand;
mod nudge;
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

/// A box in the window, logical pixels.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Box2 {
    /// Its upper left corner.
    pub min: Vec2,
    /// Its lower right corner.
    pub max: Vec2,
}

impl Box2 {
    /// The box with these for opposite corners.
    pub fn between(a: Vec2, b: Vec2) -> Self {
        Self { min: a.min(b), max: a.max(b) }
    }

    /// Whether a place lies in it.
    pub fn has(&self, at: Vec2) -> bool {
        at.cmpge(self.min).all() && at.cmple(self.max).all()
    }
}

impl Around<'_> {
    /// Whether a key is held with which a click or a box adds to what is selected: shift or control, as everywhere.
    pub fn adds(&self) -> bool {
        self.shift || self.snap
    }

    /// The scene's part of the window.
    pub fn area(&self) -> &SceneArea {
        &self.view.area
    }

    /// Whether a place in the window (logical pixels) belongs to the scene.
    pub fn has(&self, at: Vec2) -> bool {
        self.area().pointer_inside && self.view.has(at)
    }
}
