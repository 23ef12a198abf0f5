//! What scene and window say to each other.

use bevy::math::Vec2;
use bevy::prelude::{Resource, SystemSet};
use elbowroom_workbench::{Command, ViewCommand, Workbench};

/// The workbench, as a resource.
#[derive(Resource)]
pub struct Desk(pub Workbench);

/// Commands that scene and panels wish for, performed in order once a frame.
#[derive(Resource, Default)]
pub struct Wishes(pub Vec<Command>);

/// Where the camera is asked to go: the workbench's [`Request::View`](elbowroom_workbench::Request)s,
/// handed on by the window in [`Step::Perform`]. The scene empties it in [`Step::Mirror`].
#[derive(Resource, Default)]
pub struct ViewWishes(pub Vec<ViewCommand>);

/// The part of the window that belongs to the scene, in logical pixels of the window.
#[derive(Resource, Clone, Copy, Debug, Default, PartialEq)]
pub struct SceneArea {
    /// Upper left corner.
    pub min: Vec2,
    /// Width and height.
    pub size: Vec2,
    /// Whether the pointer is over the scene and no panel, menu or dialog lies above it there.
    pub pointer_inside: bool,
    /// Whether no text field has the keyboard.
    pub keyboard_free: bool,
}

/// A short text beside something in the scene, drawn by the window over the scene.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneLabel {
    /// Where, in logical pixels of the window.
    pub at: Vec2,
    /// What it says.
    pub text: String,
    /// Whether it belongs to what is dragged or pointed at, and is drawn stronger.
    pub strong: bool,
}

/// The labels of this frame.
#[derive(Resource, Default)]
pub struct SceneLabels(pub Vec<SceneLabel>);

/// Whether the keys of this frame belong to a drag in the scene, which is moved by typed numbers, held axes,
/// Enter and Escape. Written in [`Step::Input`]; no shortcut may act on them then.
#[derive(Resource, Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SceneKeys {
    /// Whether a drag has the keyboard.
    pub taken: bool,
}

/// The order within a frame.
#[derive(SystemSet, Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Step {
    /// Mouse and keys over the scene become wishes.
    Input,
    /// Wishes are performed on the workbench.
    Perform,
    /// Entities follow the workbench.
    Mirror,
}
