//! The measured first-off, laid over the design as a translucent skin.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use elbowroom_geometry::Centreline;

use super::meshes::whole_mesh;
use crate::Desk;
use crate::look::{Paints, Wearer};
use crate::place::SceneOrigin;

/// The ghost of the measured tube.
#[derive(Component, Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ghost {
    /// The revision of the workbench that it was made of.
    pub revision: u64,
}

/// Makes the ghost follow the measurement. There is none where nothing was measured or it is doubted.
pub fn follow_ghost(
    desk: Res<Desk>,
    origin: Res<SceneOrigin>,
    paints: Res<Paints>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut commands: Commands,
    mut ghosts: Query<(Entity, &mut Ghost, &Mesh3d)>,
) {
    let workbench = &desk.0;
    if workbench.measurement().is_none() {
        for (entity, ..) in &ghosts {
            commands.entity(entity).despawn();
        }
        return;
    }
    let revision = workbench.revision();
    let is_new = origin.is_changed() || !ghosts.iter().any(|(_, ghost, _)| ghost.revision == revision);
    if !is_new {
        return;
    }
    let mesh = workbench.ghost().map(|path| whole_mesh(&Centreline::of(&path), workbench.part().tube.od.mm(), &origin));
    let there = ghosts.iter().next().map(|(entity, _, handle)| (entity, handle.id()));
    match (mesh, there) {
        (Some(mesh), Some((entity, id))) => {
            if let Ok((_, mut ghost, _)) = ghosts.get_mut(entity) {
                ghost.revision = revision;
            }
            // The handle lives, so its place among the assets does.
            let _ = meshes.insert(id, mesh);
        }
        (Some(mesh), None) => {
            commands.spawn((
                Ghost { revision },
                Mesh3d(meshes.add(mesh)),
                MeshMaterial3d(paints.of(Wearer::Ghost)),
                Transform::IDENTITY,
                NoFrustumCulling,
            ));
        }
        (None, Some((entity, _))) => commands.entity(entity).despawn(),
        (None, None) => {}
    }
}
