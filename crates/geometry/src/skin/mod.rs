//! The skin of the tube: triangles swept along the centreline, for drawing and for export.

mod budget;
mod rings;
mod sweep;

use std::ops::Range;

pub use budget::tolerance_within;
pub use sweep::{skin, skin_into, skin_of_elements_into, skin_references};

use crate::{Point3, Vector3};

/// Whether the ends of the skin are closed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ends {
    /// Open, as a tube is.
    #[default]
    Open,
    /// Closed by flat discs, so that the skin bounds a solid.
    Closed,
}

/// How a skin is swept.
#[derive(Clone, Copy, Debug)]
pub struct SkinOptions<'a> {
    /// Outside diameter, mm. Where it is not a positive finite number the skin is empty.
    pub od_mm: f64,
    /// How far the triangles may lie from the true skin at most, mm. Held everywhere: half of it is
    /// spent round the tube and half along the arcs, where the outside of the bend governs. Bounded to
    /// at least a ten-thousandth of the outside diameter, and to arc steps of at least 0.002 rad, so that
    /// no typing slip fills the memory.
    pub chord_tolerance_mm: f64,
    /// Open or closed ends.
    pub ends: Ends,
    /// Stations (mm along the tube) at which a stretch must end, such as the edges of a clamp; in any
    /// order. Tangent points are always edges of stretches.
    pub cuts: &'a [f64],
}

impl Default for SkinOptions<'_> {
    fn default() -> Self {
        Self { od_mm: 50.8, chord_tolerance_mm: 0.25, ends: Ends::Open, cuts: &[] }
    }
}

/// A stretch of the skin between two neighbouring edges (tangent points and cuts).
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Station at which it begins, mm along the tube.
    pub from_mm: f64,
    /// Station at which it ends, mm along the tube.
    pub to_mm: f64,
    /// The element of the centreline that it lies on: even numbers are straights, odd ones arcs.
    pub element: usize,
    /// Its triangles, as indices into [`SkinMesh::triangles`].
    pub triangles: Range<usize>,
    /// Its vertices, as indices into [`SkinMesh::positions`]. No other stretch uses them, so that a
    /// stretch can be coloured by its vertices.
    pub vertices: Range<usize>,
}

/// A triangle mesh of the skin.
///
/// Stretches lie one after the other, each with vertices of its own; where two of them meet, their
/// vertices have the same position to the bit. Each ring has a seam, where the last vertex repeats the
/// first with an angle of a full turn. Triangles run anticlockwise seen from outside.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SkinMesh {
    /// Places of the vertices, mm.
    pub positions: Vec<Point3<f64>>,
    /// Outward unit normals, one for each vertex.
    pub normals: Vec<Vector3<f64>>,
    /// For each vertex its angle round the tube (rad, 0 to 2π, right-handed about the direction of
    /// travel, from a reference line that runs along the tube without twist and begins at the start
    /// frame's normal) and its station (mm along the tube).
    pub around: Vec<(f64, f64)>,
    /// Triples of vertex indices.
    pub triangles: Vec<[u32; 3]>,
    /// The stretches in order along the tube.
    pub stretches: Vec<Stretch>,
}

impl SkinMesh {
    /// The stretch that a triangle belongs to, or `None` where there is no such triangle.
    pub fn stretch_of_triangle(&self, triangle: usize) -> Option<usize> {
        let index = self.stretches.partition_point(|stretch| stretch.triangles.end <= triangle);
        (index < self.stretches.len()).then_some(index)
    }

    /// Empties the mesh and keeps its memory.
    pub fn clear(&mut self) {
        self.positions.clear();
        self.normals.clear();
        self.around.clear();
        self.triangles.clear();
        self.stretches.clear();
    }
}
