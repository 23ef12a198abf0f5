//! The tube as a change would make it that is pointed at, laid over the tube as a translucent skin.

use std::sync::Arc;

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use elbowroom_bending::Solved;

use super::meshes::whole_mesh;
use crate::Desk;
use crate::look::{Paints, Wearer};
use crate::place::SceneOrigin;

/// The skin of what is proposed.
#[derive(Component, Clone, Debug)]
pub struct Proposed(Arc<Solved>);

/// Makes the skin follow what is pointed at. There is none where the tube would stay as it is.
pub fn follow_proposal(
    desk: Res<Desk>,
    origin: Res<SceneOrigin>,
    paints: Res<Paints>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut commands: Commands,
    skins: Query<(Entity, &Proposed)>,
) {
    let workbench = &desk.0;
    let wanted = workbench.proposal().and_then(|proposal| proposal.solved());
    let is_there = |skin: &Proposed| wanted.is_some_and(|wanted| Arc::ptr_eq(wanted, &skin.0));
    let mut stands = false;
    for (entity, skin) in &skins {
        if is_there(skin) && !origin.is_changed() {
            stands = true;
        } else {
            commands.entity(entity).despawn();
        }
    }
    if let Some(solved) = wanted.filter(|_| !stands) {
        commands.spawn((
            Proposed(Arc::clone(solved)),
            Mesh3d(meshes.add(whole_mesh(&solved.centreline, workbench.part().tube.od.mm(), &origin))),
            MeshMaterial3d(paints.of(Wearer::Proposal)),
            Transform::IDENTITY,
            NoFrustumCulling,
        ));
    }
}
