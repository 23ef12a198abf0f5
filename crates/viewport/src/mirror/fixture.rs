//! What can stand on the tube.

use bevy::prelude::Component;
use elbowroom_bending::NodeId;
use elbowroom_workbench::Target;

/// What a fixture is. Entities are found again by it.
#[derive(Component, Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fixture {
    /// A handle or plain vertex.
    Knob(Target<NodeId>),
    /// The handle or vertex of a place that is held.
    Pin(Target<NodeId>),
    /// The rod along the direction that is held there, in which the tube comes in (`false`) or goes out (`true`).
    Course(Target<NodeId>, bool),
    /// The ring at the start (`false`) or end (`true`) of the how-manieth stop.
    Ring(usize, bool),
    /// The bright line along that ring.
    RingLine(usize, bool),
    /// The cut face at the lead end (`false`) or the tail end (`true`).
    Face(bool),
    /// The clamp of the selected bend.
    Clamp,
}
