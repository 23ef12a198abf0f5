//! The handles follow the part and the eye.

use bevy::prelude::*;

use super::Knobs;
use crate::camera::{Eye, View};
use crate::{Desk, SceneArea};

/// Works the handles out anew when the part has changed.
pub fn follow_knobs(desk: Res<Desk>, mut knobs: ResMut<Knobs>) {
    knobs.follow(&desk.0);
}

/// Chooses the handles of this frame.
pub fn choose_knobs(desk: Res<Desk>, eye: Res<Eye>, area: Res<SceneArea>, mut knobs: ResMut<Knobs>) {
    if let Some(view) = View::new(&eye, &area) {
        knobs.choose(&view, &desk.0);
    }
}
