//! The other tubes of the system: each that is shown and not worked on stands as one plain skin, without handles and
//! marks.

use std::sync::Arc;

use bevy::camera::visibility::NoFrustumCulling;
use bevy::platform::collections::HashMap;
use bevy::prelude::*;
use elbowroom_bending::{Part, Solved, System, SystemTube, TubeId};
use elbowroom_geometry::Point3;

use super::meshes::whole_mesh;
use crate::Desk;
use crate::camera::{middle, outline};
use crate::look::{Paint, Paints, Wearer};
use crate::place::SceneOrigin;

/// A tube that is not worked on. While it is, or is hidden, its skin is kept out of sight: it is made anew only when what
/// is drawn of the tube has changed meanwhile.
#[derive(Component, Clone, Debug)]
pub struct OtherTube {
    /// By which the system knows it.
    pub id: TubeId,
    /// What was drawn of it when its skin was made. The document keeps the very same part as long as it tells of no
    /// change to the tube.
    part: Arc<Part>,
    /// The point of the world about which its skin lies, so that the scene's origin can move without it.
    middle: Point3<f64>,
}

/// What the scene last made of the tubes that are not worked on.
#[derive(Resource, Default)]
pub struct Others {
    system: Option<Arc<System>>,
    standing: usize,
    /// How many skins were made since the program began.
    pub made: u64,
}

impl OtherTube {
    fn of(tube: &SystemTube, solved: &Solved) -> Self {
        let points = outline(&solved.centreline, |_| true);
        Self { id: tube.id, part: Arc::clone(&tube.part), middle: middle(&points).unwrap_or_else(Point3::origin) }
    }

    /// Whether its skin is that of `part`.
    fn is_drawn_as(&self, part: &Arc<Part>) -> bool {
        let same_skin = || self.part.path == part.path && self.part.tube.od == part.tube.od;
        Arc::ptr_eq(&self.part, part) || same_skin()
    }

    fn mesh(&self, solved: &Solved) -> Mesh {
        whole_mesh(&solved.centreline, self.part.tube.od.mm(), &SceneOrigin(self.middle))
    }

    fn place(&self, origin: &SceneOrigin) -> Transform {
        Transform::from_translation(origin.point(&self.middle))
    }
}

/// Makes the other tubes follow the system.
pub fn follow_others(
    desk: Res<Desk>,
    origin: Res<SceneOrigin>,
    mut others: ResMut<Others>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut commands: Commands,
    mut tubes: Query<(Entity, &mut OtherTube, &Mesh3d, &mut Transform, &mut Visibility)>,
) {
    let system = desk.0.system();
    let is_known = others.system.as_ref().is_some_and(|known| Arc::ptr_eq(known, system));
    if is_known && !origin.is_changed() && tubes.iter().len() == others.standing {
        return;
    }
    others.system = Some(Arc::clone(system));
    let mut old: HashMap<TubeId, Entity> = tubes.iter().map(|(entity, tube, ..)| (tube.id, entity)).collect();
    let mut standing = 0;
    for (tube, solved) in desk.0.tubes() {
        let seen = !tube.hidden && tube.id != system.active();
        let entity = old.remove(&tube.id);
        standing += usize::from(seen || entity.is_some());
        match entity.and_then(|entity| tubes.get_mut(entity).ok()) {
            Some((_, mut other, mesh, mut place, mut visibility)) => {
                visibility.set_if_neq(if seen { Visibility::Inherited } else { Visibility::Hidden });
                if seen && !other.is_drawn_as(&tube.part) {
                    *other = OtherTube::of(tube, solved);
                    // The handle lives, so its place among the assets does.
                    let _ = meshes.insert(mesh.id(), other.mesh(solved));
                    others.made += 1;
                }
                place.set_if_neq(other.place(&origin));
            }
            None if seen => {
                let other = OtherTube::of(tube, solved);
                others.made += 1;
                commands.spawn((
                    Mesh3d(meshes.add(other.mesh(solved))),
                    MeshMaterial3d::<Paint>::default(),
                    other.place(&origin),
                    Visibility::Inherited,
                    other,
                    NoFrustumCulling,
                ));
            }
            None => {}
        }
    }
    others.standing = standing;
    for entity in old.into_values() {
        commands.entity(entity).despawn();
    }
}

/// Gives each its paint, lit up where it is pointed at.
pub fn dress_others(desk: Res<Desk>, paints: Res<Paints>, mut tubes: Query<(&OtherTube, &mut MeshMaterial3d<Paint>)>) {
    let pointed_at = desk.0.tube_hover();
    for (tube, mut material) in &mut tubes {
        let paint = paints.of(Wearer::OtherTube(pointed_at == Some(tube.id)));
        if material.0 != paint {
            material.0 = paint;
        }
    }
}
