//! The few meshes that all fixtures share.

use bevy::math::primitives::{Annulus, Cuboid, Extrusion, Rectangle, Sphere};
use bevy::prelude::*;

use super::fixture::Fixture;

/// Shared meshes, each about the origin; x is the direction of travel along the tube.
#[derive(Resource)]
pub struct Shapes {
    knob: Handle<Mesh>,
    ring: Handle<Mesh>,
    face: Handle<Mesh>,
    block: Handle<Mesh>,
    /// A square of two by two in the floor.
    pub floor: Handle<Mesh>,
    wall_share: f64,
}

impl FromWorld for Shapes {
    fn from_world(world: &mut World) -> Self {
        let mut meshes = world.resource_mut::<Assets<Mesh>>();
        // A collar of length and radius 1 about z, turned to stand about x. Its inside lies within the wall of the tube.
        let about_x = Quat::from_rotation_y(std::f32::consts::FRAC_PI_2);
        let ring = Extrusion::new(Annulus::new(0.8, 1.0), 1.0).mesh().build();
        Self {
            knob: meshes.add(Sphere::new(1.0).mesh().ico(3).unwrap_or_else(|_| Sphere::new(1.0).mesh().build())),
            ring: meshes.add(ring.rotated_by(about_x)),
            face: meshes.add(face(0.05)),
            block: meshes.add(Cuboid::from_length(1.0)),
            floor: meshes.add(Rectangle::new(2.0, 2.0)),
            wall_share: 0.05,
        }
    }
}

impl Shapes {
    /// The mesh of a fixture.
    pub fn of(&self, fixture: Fixture) -> Handle<Mesh> {
        match fixture {
            Fixture::Knob(_) => &self.knob,
            Fixture::Ring(..) | Fixture::RingLine(..) => &self.ring,
            Fixture::Face(_) => &self.face,
            Fixture::Clamp | Fixture::Pin(_) | Fixture::Course(..) => &self.block,
        }
        .clone()
    }

    /// Makes the cut face fit a wall, given as a share of the outside diameter.
    pub fn fit_face(&mut self, wall_share: f64, meshes: &mut Assets<Mesh>) {
        if wall_share != self.wall_share {
            self.wall_share = wall_share;
            // The handle lives, so its place among the assets does.
            let _ = meshes.insert(self.face.id(), face(wall_share));
        }
    }
}

/// The ring of metal that one sees at the end of a tube of radius 1.
fn face(wall_share: f64) -> Mesh {
    let inner = (1.0 - 2.0 * wall_share).clamp(0.0, 0.99) as f32;
    let annulus = Annulus::new(inner, 1.0).mesh().resolution(48).build();
    annulus.rotated_by(Quat::from_rotation_y(std::f32::consts::FRAC_PI_2))
}
