//! A body that a tube has to keep clear of, in its own frame, whatever it is made of.

use std::sync::Arc;

use super::convex::Convex;
use super::mesh::TriangleMesh;
use crate::refusal::guard_mm;
use crate::{LARGEST_MM, Length, Point3, Refusal, Vector3};

/// What a tube has to keep clear of, in its own frame. Where it stands is told by a [`Frame`](crate::Frame): its tangent
/// is the x of the body, its normal the y, its binormal the z.
#[derive(Clone, Debug)]
pub struct Body(Kind);

#[derive(Clone, Debug)]
enum Kind {
    Mesh(Arc<TriangleMesh>),
    Convex(Convex),
}

/// The smallest edge, diameter or length of a body, mm.
const SMALLEST_MM: f64 = 1e-3;

/// Where a segment comes nearest to a body.
#[derive(Clone, Copy, Debug)]
pub(super) struct Touch {
    /// The share (0 to 1) along the segment.
    pub share: f64,
    /// A distance that no place of the segment goes below, mm; below zero inside of a convex body, zero where the segment
    /// goes through a triangle.
    pub distance_mm: f64,
}

impl Body {
    /// Triangles.
    pub fn mesh(mesh: Arc<TriangleMesh>) -> Self {
        Self(Kind::Mesh(mesh))
    }

    /// A box about the origin, by its edges along x, y and z.
    ///
    /// # Errors
    /// Refuses an edge that is not positive or out of reach.
    pub fn cuboid(size: [Length; 3]) -> Result<Self, Refusal> {
        for (edge, axis) in size.iter().zip(["x", "y", "z"]) {
            guard_mm(|| format!("the edge of the box along {axis}"), edge.mm(), SMALLEST_MM, LARGEST_MM)?;
        }
        Ok(Self(Kind::Convex(Convex::Cuboid(Vector3::from(size.map(Length::mm)) / 2.0))))
    }

    /// A cylinder along x, its middle at the origin.
    ///
    /// # Errors
    /// Refuses a diameter or length that is not positive or out of reach.
    pub fn cylinder(diameter: Length, length: Length) -> Result<Self, Refusal> {
        guard_mm(|| "the diameter of the cylinder".into(), diameter.mm(), SMALLEST_MM, LARGEST_MM)?;
        guard_mm(|| "the length of the cylinder".into(), length.mm(), SMALLEST_MM, LARGEST_MM)?;
        Ok(Self(Kind::Convex(Convex::Cylinder { radius_mm: diameter.mm() / 2.0, half_mm: length.mm() / 2.0 })))
    }

    /// Everything below the plane z = 0, such as the ground.
    pub fn below() -> Self {
        Self(Kind::Convex(Convex::Below))
    }

    /// Its triangles, where it is made of such.
    pub fn as_mesh(&self) -> Option<&Arc<TriangleMesh>> {
        match &self.0 {
            Kind::Mesh(mesh) => Some(mesh),
            Kind::Convex(_) => None,
        }
    }

    /// Where a segment comes nearest, if that is nearer than `limit_mm`.
    pub(super) fn to_segment(&self, p: &Point3<f64>, q: &Point3<f64>, limit_mm: f64) -> Option<Touch> {
        let touch = match &self.0 {
            Kind::Mesh(mesh) => {
                let near = mesh.nearest((p, q), limit_mm)?;
                Touch { share: near.share, distance_mm: near.squared.sqrt() }
            }
            Kind::Convex(body) => {
                let (share, distance_mm) = body.along(p, q);
                Touch { share, distance_mm }
            }
        };
        (touch.distance_mm < limit_mm).then_some(touch)
    }

    /// The distance of a point (mm) and the place of the surface nearest to it, where that is nearer than `limit_mm`.
    pub(super) fn to_point(&self, point: &Point3<f64>, limit_mm: f64) -> Option<(f64, Point3<f64>)> {
        match &self.0 {
            Kind::Mesh(mesh) => mesh.nearest((point, point), limit_mm).map(|near| (near.squared.sqrt(), near.on)),
            Kind::Convex(body) => {
                let distance_mm = body.distance_mm(point);
                (distance_mm < limit_mm).then(|| (distance_mm, body.surface(point)))
            }
        }
    }

    /// Whether a point lies inside, asked only where the distance does not tell.
    pub(super) fn holds(&self, point: &Point3<f64>) -> bool {
        match &self.0 {
            Kind::Mesh(mesh) => mesh.holds(point),
            Kind::Convex(body) => body.distance_mm(point) < 0.0,
        }
    }

    /// Whether distances are told below zero inside.
    pub(super) fn tells_depth(&self) -> bool {
        matches!(self.0, Kind::Convex(_))
    }
}
