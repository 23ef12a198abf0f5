//! The tube: one entity for each stretch of skin, found again by element and number.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::platform::collections::HashMap;
use bevy::prelude::*;
use elbowroom_bending::{NodeId, Severity};
use elbowroom_workbench::{Selection, Target};

use super::Shadow;
use super::meshes::stretch_mesh;
use super::shadow::StretchId;
use crate::Desk;
use crate::look::{Lit, Paint, Paints, Wearer};
use crate::marks::severity_at;
use crate::place::SceneOrigin;

/// The mark that a stretch carries.
#[derive(Component, Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marked(pub Option<Severity>);

/// Makes the stretches follow the part, when its revision has changed or stretches have gone missing.
pub fn follow_part(
    desk: Res<Desk>,
    mut shadow: ResMut<Shadow>,
    mut origin: ResMut<SceneOrigin>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut commands: Commands,
    mut stretches: Query<(Entity, &StretchId, &Mesh3d, &mut Marked)>,
) {
    let revision = Some(desk.0.revision());
    if shadow.revision == revision && stretches.iter().len() == shadow.skin.stretches.len() {
        return;
    }
    let (part, solved) = (desk.0.part(), desk.0.solved());
    shadow.revision = revision;
    shadow.follow(part, solved);
    let wanted_origin = origin.for_tube(&shadow.middle, shadow.reach_mm);
    let same_origin = !origin.set_if_neq(wanted_origin);
    let same_od = shadow.od_mm == part.tube.od.mm();
    shadow.od_mm = part.tube.od.mm();
    let mut old: HashMap<StretchId, Entity> = stretches.iter().map(|(entity, id, ..)| (*id, entity)).collect();
    let shadow = &*shadow;
    for (index, (stretch, id)) in shadow.skin.stretches.iter().zip(&shadow.names).enumerate() {
        let severity = severity_at(&shadow.marks, (stretch.from_mm + stretch.to_mm) / 2.0);
        let mesh = || stretch_mesh(&shadow.skin, stretch, part.tube.od.mm(), &origin);
        match old.remove(id).and_then(|entity| stretches.get_mut(entity).ok()) {
            Some((_, _, mesh_handle, mut marked)) => {
                marked.set_if_neq(Marked(severity));
                if !(same_origin && same_od && shadow.is_as_before(index)) {
                    // The handle lives, so its place among the assets does.
                    let _ = meshes.insert(mesh_handle.id(), mesh());
                }
            }
            None => {
                commands.spawn((
                    *id,
                    Marked(severity),
                    Mesh3d(meshes.add(mesh())),
                    MeshMaterial3d::<Paint>::default(),
                    Transform::IDENTITY,
                    NoFrustumCulling,
                ));
            }
        }
    }
    for entity in old.into_values() {
        commands.entity(entity).despawn();
    }
}

/// Gives each stretch the paint of its mark, lit up where it is pointed at or selected.
pub fn dress_stretches(
    desk: Res<Desk>,
    paints: Res<Paints>,
    mut stretches: Query<(&StretchId, &Marked, &mut MeshMaterial3d<Paint>)>,
) {
    let (hover, selection) = (desk.0.hover_by_id(), desk.0.selection_by_id());
    for (id, marked, mut material) in &mut stretches {
        let paint = paints.of(Wearer::Stretch(marked.0, lit(id.on, hover, selection)));
        if material.0 != paint {
            material.0 = paint;
        }
    }
}

/// How a straight or bend is lit up. A bend is lit by its handles too.
fn lit(on: Target<NodeId>, hover: Option<Target<NodeId>>, selection: &Selection<NodeId>) -> Lit {
    let is_it = |target: &Target<NodeId>| *target == on || on.bend().is_some_and(|bend| target.bend() == Some(bend));
    if selection.targets().iter().any(is_it) {
        Lit::Selected
    } else if hover.as_ref().is_some_and(is_it) {
        Lit::Hovered
    } else {
        Lit::Plain
    }
}
