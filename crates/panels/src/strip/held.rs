//! What the strip keeps from one frame to the next.

use egui::Rangef;
use elbowroom_bending::NodeId;
use elbowroom_workbench::Target;

use super::edges::{Drag, Edge};
use super::scale::{Scale, View};

/// What the strip keeps between frames.
#[derive(Clone, Copy, Debug, Default)]
pub struct Held {
    /// Zoom and pan.
    pub view: View,
    /// The edge in hand, with the scale that stays as it is while it is dragged.
    pub drag: Option<(Drag, Scale)>,
    /// What the strip last said lies under the pointer.
    pub(super) hovered: Option<Target<NodeId>>,
    /// The edge under the pointer.
    pub near: Option<Edge>,
}

impl Held {
    /// The scale in force.
    pub fn scale(&self, extent_mm: (f64, f64), x: Rangef) -> Scale {
        self.drag.map_or_else(|| self.view.scale(extent_mm, x), |(_, scale)| scale)
    }
}
