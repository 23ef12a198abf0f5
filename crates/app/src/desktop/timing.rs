//! How long the start took, told on standard error where `ELBOWROOM_TIMING=1` is set.

use std::time::Instant;

use bevy::prelude::*;

use super::redraw::Prepared;

/// When the program was started.
#[derive(Resource)]
pub struct Started(pub Instant);

/// Tells of the first frame and of the first whole one, in which the person can act on all they see.
pub fn plugin(app: &mut App) {
    if std::env::var_os("ELBOWROOM_TIMING").is_some_and(|value| value != "0") {
        app.add_systems(Last, tell);
    }
}

fn tell(started: Res<Started>, prepared: Res<Prepared>, mut frames: Local<u32>, mut told: Local<bool>) {
    *frames += 1;
    let milliseconds = started.0.elapsed().as_millis();
    if *frames == 1 {
        eprintln!("elbowroom: timing: first frame set out after {milliseconds} ms");
    }
    // `Prepared` speaks of the frame before this one, which has been drawn by now.
    if !*told && *frames > 1 && prepared.whole() {
        *told = true;
        eprintln!("elbowroom: timing: first interactive frame drawn after {milliseconds} ms ({} frames)", *frames - 1);
    }
}
