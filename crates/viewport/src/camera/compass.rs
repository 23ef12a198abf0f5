//! How the world lies in the picture.

use bevy::prelude::*;
use elbowroom_geometry::Vector3;

use super::{Eye, Lens};
use crate::Compass;

/// Makes the compass follow the eye.
pub fn follow_compass(eye: Res<Eye>, mut compass: ResMut<Compass>) {
    let seen = |axis: Vector3<f64>| [eye.right(), eye.up(), eye.back()].map(|picture| picture.dot(&axis) as f32);
    let axes = [Vector3::x(), Vector3::y(), Vector3::z()].map(seen);
    compass.set_if_neq(Compass { axes, from: eye.from(), parallel: eye.lens == Lens::Parallel });
}
