//! What stands around the tubes: each obstacle that is not hidden as one plain body in its place.

use std::sync::Arc;

use bevy::asset::RenderAssetUsages;
use bevy::camera::visibility::NoFrustumCulling;
use bevy::math::primitives::{Cuboid, Cylinder, Rectangle};
use bevy::mesh::{Indices, PrimitiveTopology};
use bevy::prelude::*;
use elbowroom_bending::around::Stands;
use elbowroom_bending::{Obstacle, ObstacleId, Shape};
use elbowroom_geometry::TriangleMesh;

use crate::Desk;
use crate::look::{Paints, Wearer};
use crate::place::{SceneOrigin, turn};

/// Half the edge of what is drawn of a plane, mm: a car's length.
const PLANE_MM: f32 = 2500.0;

/// An obstacle in the scene.
#[derive(Component, Clone, Debug)]
pub struct ObstacleBody {
    id: ObstacleId,
    shape: Shape,
    /// The triangles that were drawn, where it is a mesh.
    triangles: Option<Arc<TriangleMesh>>,
}

impl ObstacleBody {
    fn is_drawn_as(&self, obstacle: &Obstacle, triangles: Option<&Arc<TriangleMesh>>) -> bool {
        let same = match (&self.triangles, triangles) {
            (Some(drawn), Some(now)) => Arc::ptr_eq(drawn, now),
            (None, None) => true,
            _ => false,
        };
        same && self.shape == obstacle.shape
    }
}

/// Makes the bodies follow the system.
pub fn follow_obstacles(
    desk: Res<Desk>,
    origin: Res<SceneOrigin>,
    paints: Res<Paints>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut commands: Commands,
    mut bodies: Query<(Entity, &mut ObstacleBody, &Mesh3d, &mut Transform, &mut Visibility)>,
) {
    let workbench = &desk.0;
    for (entity, body, ..) in &bodies {
        if !workbench.neighbours().any(|(obstacle, _)| obstacle.id == body.id) {
            commands.entity(entity).despawn();
        }
    }
    for (obstacle, neighbour) in workbench.neighbours() {
        let triangles = match &neighbour.stands {
            Ok(Stands::Body(body, _)) => body.as_mesh(),
            _ => None,
        };
        let place = placed(obstacle, &origin);
        let seen = if obstacle.hidden { Visibility::Hidden } else { Visibility::Inherited };
        let there = bodies.iter_mut().find(|(_, body, ..)| body.id == obstacle.id);
        if let Some((_, mut body, mesh, mut transform, mut visibility)) = there {
            transform.set_if_neq(place);
            visibility.set_if_neq(seen);
            if !body.is_drawn_as(obstacle, triangles) {
                body.shape.clone_from(&obstacle.shape);
                body.triangles = triangles.cloned();
                // The handle lives, so its place among the assets does.
                let _ = meshes.insert(mesh.id(), mesh_of(obstacle, triangles));
            }
        } else {
            commands.spawn((
                ObstacleBody { id: obstacle.id, shape: obstacle.shape.clone(), triangles: triangles.cloned() },
                Mesh3d(meshes.add(mesh_of(obstacle, triangles))),
                MeshMaterial3d(paints.of(Wearer::Obstacle)),
                place,
                seen,
                NoFrustumCulling,
            ));
        }
    }
}

fn placed(obstacle: &Obstacle, origin: &SceneOrigin) -> Transform {
    let frame = &obstacle.placement;
    Transform { translation: origin.point(&frame.origin), rotation: turn(frame), scale: Vec3::ONE }
}

/// The body in its own frame. A mesh whose file could not be read has none: the findings say so.
fn mesh_of(obstacle: &Obstacle, triangles: Option<&Arc<TriangleMesh>>) -> Mesh {
    match &obstacle.shape {
        Shape::Cuboid(size) => {
            let [x, y, z] = size.map(|edge| edge.mm() as f32);
            Cuboid::new(x, y, z).mesh().build()
        }
        Shape::Cylinder { diameter, length } => {
            let upright = Cylinder::new(diameter.mm() as f32 / 2.0, length.mm() as f32).mesh().resolution(64).build();
            // The engine's stands along y, ours lies along x.
            upright.rotated_by(Quat::from_rotation_z(-std::f32::consts::FRAC_PI_2))
        }
        Shape::Plane => Rectangle::new(2.0 * PLANE_MM, 2.0 * PLANE_MM).mesh().build(),
        Shape::Mesh(_) => triangles.map_or_else(|| faces(&[]), |mesh| faces(&corners(mesh))),
    }
}

/// The corners of every triangle, in the frame of the mesh.
fn corners(mesh: &TriangleMesh) -> Vec<[Vec3; 3]> {
    let points = mesh.points();
    let corner =
        |at: u32| points.get(at as usize).map_or(Vec3::ZERO, |p| Vec3::new(p.x as f32, p.y as f32, p.z as f32));
    mesh.triangles().iter().map(|triangle| triangle.map(corner)).collect()
}

/// Flat triangles: a chassis has edges, and a mesh from elsewhere need not say which of them are round.
fn faces(triangles: &[[Vec3; 3]]) -> Mesh {
    let mut places = Vec::with_capacity(triangles.len() * 3);
    let mut normals = Vec::with_capacity(triangles.len() * 3);
    for [a, b, c] in triangles {
        let normal = (*b - *a).cross(*c - *a).normalize_or(Vec3::Z).to_array();
        places.extend([a, b, c].map(|corner| corner.to_array()));
        normals.extend([normal; 3]);
    }
    let around = vec![[0.0_f32; 2]; places.len()];
    let indices = Indices::U32((0..places.len() as u32).collect());
    Mesh::new(PrimitiveTopology::TriangleList, RenderAssetUsages::RENDER_WORLD)
        .with_inserted_attribute(Mesh::ATTRIBUTE_POSITION, places)
        .with_inserted_attribute(Mesh::ATTRIBUTE_NORMAL, normals)
        .with_inserted_attribute(Mesh::ATTRIBUTE_UV_0, around)
        .with_inserted_indices(indices)
}
