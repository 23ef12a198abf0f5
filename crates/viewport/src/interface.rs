//! What scene and window say to each other.

use bevy::math::Vec2;
use bevy::prelude::{Resource, SystemSet};
use elbowroom_workbench::{Command, ViewCommand, ViewFrom, Workbench};

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
    /// Whether nothing of the panels has it, so that arrow keys are the scene's.
    pub arrows_free: bool,
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

/// A word on the tube: which end it is, which number a bend has. Drawn by the window over the scene, below its labels.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneSign {
    /// What it stands beside, logical pixels of the window.
    pub at: Vec2,
    /// The direction from there in which it stands, of length 1.
    pub towards: Vec2,
    /// What it says.
    pub text: String,
}

/// The signs of this frame.
#[derive(Resource, Default)]
pub struct SceneSigns(pub Vec<SceneSign>);

/// How the world lies in the picture, for whoever draws its axes in a corner.
#[derive(Resource, Clone, Copy, Debug, Default, PartialEq)]
pub struct Compass {
    /// Where x, y and z point in the picture: to the right, up, and towards the eye; each of length 1.
    pub axes: [[f32; 3]; 3],
    /// The side or corner that one looks from, where it is one of those that have a name.
    pub from: Option<ViewFrom>,
    /// Whether it is seen in parallel.
    pub parallel: bool,
}

/// The box that is drawn to select what lies in it, logical pixels of the window: two opposite corners.
#[derive(Resource, Clone, Copy, Debug, Default, PartialEq)]
pub struct SceneBox(pub Option<(Vec2, Vec2)>);

/// Where in the window a menu is asked for, logical pixels; of what is selected by then. The window empties it.
#[derive(Resource, Clone, Copy, Debug, Default, PartialEq)]
pub struct MenuWish(pub Option<Vec2>);

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
