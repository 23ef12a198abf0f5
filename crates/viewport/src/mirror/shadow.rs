//! The skin of the shown part, swept anew when the workbench's revision changes and never else.

use bevy::asset::RenderAssetUsages;
use bevy::mesh::{Indices, PrimitiveTopology};
use bevy::platform::collections::HashMap;
use bevy::prelude::*;
use elbowroom_bending::{NodeId, Numbering, Part, Solved};
use elbowroom_geometry::{Centreline, Point3, SkinMesh, SkinOptions, Stretch, skin_into, tolerance_within};
use elbowroom_workbench::Target;

use crate::camera::{middle, outline, reach_mm};
use crate::marks::{Mark, marks};
use crate::place::SceneOrigin;

/// How far the triangles may lie from the true skin, mm.
pub const CHORD_TOLERANCE_MM: f64 = 0.25;
/// The skin is drawn coarser where it would have more vertices than this: a tube of 500 bends of 90° just has
/// not. On a screen that shows a longer one whole nobody sees the difference.
const MOST_VERTICES: usize = 400_000;
/// How often the pattern of a mark repeats round the tube.
const REPEATS: f64 = 8.0;

/// A stretch of skin, found again by the id of what it lies on.
#[derive(Component, Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct StretchId {
    /// The straight or bend that it lies on.
    pub on: Target<NodeId>,
    /// The how-manieth stretch of it.
    pub number: usize,
}

/// What the scene last made of the workbench's part.
#[derive(Resource, Default)]
pub struct Shadow {
    /// The revision it was made of.
    pub revision: Option<u64>,
    /// The marks of the findings.
    pub marks: Vec<Mark>,
    /// The skin, cut at the edges of the marks.
    pub skin: SkinMesh,
    /// The skin before, so that only what moved is sent to the graphics card, and the memory is used again.
    pub before: SkinMesh,
    /// Which stretches of skin there are.
    pub names: Vec<StretchId>,
    /// Where in the skin before the stretches of these names lay.
    places_before: HashMap<StretchId, usize>,
    /// The outside diameter that the meshes were made for, mm.
    pub od_mm: f64,
    /// The middle of the tube, mm.
    pub middle: Point3<f64>,
    /// How far the tube reaches about its middle, mm.
    pub reach_mm: f64,
    /// The lowest height of its centreline, mm.
    pub lowest_mm: f64,
}

impl Shadow {
    /// Makes the skin and the marks of a part.
    pub fn follow(&mut self, part: &Part, solved: &Solved) {
        std::mem::swap(&mut self.skin, &mut self.before);
        self.marks = marks(&solved.findings, solved.centreline.stations_mm());
        let cuts: Vec<f64> = self.marks.iter().flat_map(|mark| [mark.from_mm, mark.to_mm]).collect();
        let mut options = SkinOptions {
            od_mm: part.tube.od.mm(),
            chord_tolerance_mm: CHORD_TOLERANCE_MM,
            cuts: &cuts,
            ..SkinOptions::default()
        };
        options.chord_tolerance_mm = tolerance_within(&solved.centreline, &options, MOST_VERTICES);
        skin_into(&solved.centreline, &options, &mut self.skin);
        self.places_before.clear();
        self.places_before.extend(self.names.drain(..).enumerate().map(|(place, name)| (name, place)));
        self.names.extend(names(&self.skin, &solved.nodes));
        let points = outline(&solved.centreline, |_| true);
        self.middle = middle(&points).unwrap_or_else(Point3::origin);
        self.reach_mm = reach_mm(&points, &self.middle) + part.tube.od.mm();
        self.lowest_mm = points.iter().map(|point| point.z).fold(f64::INFINITY, f64::min);
    }

    /// Whether stretch `index` has the very triangles that it had before.
    pub fn is_as_before(&self, index: usize) -> bool {
        let place = self.names.get(index).and_then(|name| self.places_before.get(name));
        let old = place.and_then(|place| self.before.stretches.get(*place));
        let Some((new, old)) = self.skin.stretches.get(index).zip(old) else { return false };
        new.from_mm == old.from_mm
            && new.triangles.len() == old.triangles.len()
            && self.skin.positions[new.vertices.clone()] == self.before.positions[old.vertices.clone()]
    }
}

/// What each stretch of skin lies on.
fn names(skin: &SkinMesh, nodes: &Numbering) -> impl Iterator<Item = StretchId> {
    let mut last = (usize::MAX, 0);
    skin.stretches.iter().map(move |stretch| {
        let element = stretch.element;
        last = (element, if last.0 == element { last.1 + 1 } else { 0 });
        let on = if element % 2 == 0 { Target::Straight(element / 2) } else { Target::Bend(element / 2) };
        StretchId { on: on.named(nodes), number: last.1 }
    })
}

/// The mesh of a stretch in the scene. Its texture coordinates count repeats of the mark's pattern round and along the
/// tube, so that patterns have one size everywhere.
pub fn stretch_mesh(skin: &SkinMesh, stretch: &Stretch, od_mm: f64, origin: &SceneOrigin) -> Mesh {
    let vertices = stretch.vertices.clone();
    let per_mm = REPEATS / (std::f64::consts::PI * od_mm);
    // Two whole repeats can be left out without a seam in any pattern.
    let left_out = 2.0 * (stretch.from_mm * per_mm / 2.0).floor();
    let first = stretch.vertices.start as u32;
    let positions: Vec<[f32; 3]> = skin.positions[vertices.clone()].iter().map(|at| origin.point_array(at)).collect();
    let normals: Vec<[f32; 3]> = skin.normals[vertices.clone()]
        .iter()
        .map(|normal| [normal.x as f32, normal.y as f32, normal.z as f32])
        .collect();
    let uvs: Vec<[f32; 2]> = skin.around[vertices]
        .iter()
        .map(|(angle, station_mm)| {
            let around = angle / std::f64::consts::TAU * REPEATS;
            [around as f32, (station_mm * per_mm - left_out) as f32]
        })
        .collect();
    let indices = skin.triangles[stretch.triangles.clone()].iter().flatten().map(|index| index - first).collect();
    Mesh::new(PrimitiveTopology::TriangleList, RenderAssetUsages::default())
        .with_inserted_attribute(Mesh::ATTRIBUTE_POSITION, positions)
        .with_inserted_attribute(Mesh::ATTRIBUTE_NORMAL, normals)
        .with_inserted_attribute(Mesh::ATTRIBUTE_UV_0, uvs)
        .with_inserted_indices(Indices::U32(indices))
}

/// The whole skin of a tube as one mesh.
pub fn whole_mesh(centreline: &Centreline, od_mm: f64, origin: &SceneOrigin) -> Mesh {
    let mut options = SkinOptions { od_mm, chord_tolerance_mm: CHORD_TOLERANCE_MM, ..SkinOptions::default() };
    options.chord_tolerance_mm = tolerance_within(centreline, &options, MOST_VERTICES);
    let mut skin = SkinMesh::default();
    skin_into(centreline, &options, &mut skin);
    let whole = Stretch {
        element: 0,
        from_mm: 0.0,
        to_mm: 0.0,
        vertices: 0..skin.positions.len(),
        triangles: 0..skin.triangles.len(),
    };
    stretch_mesh(&skin, &whole, od_mm, origin)
}
