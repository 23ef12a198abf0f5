//! From skin to the engine's meshes.

use bevy::asset::RenderAssetUsages;
use bevy::mesh::{Indices, PrimitiveTopology};
use bevy::prelude::*;
use elbowroom_geometry::{Centreline, SkinMesh, SkinOptions, Stretch, skin_of_elements_into, skin_references};

use super::shadow::tolerance_for;
use crate::look::{REPEATS, repeat_mm, seamless_mm};
use crate::place::SceneOrigin;

/// So many straights and arcs of a whole tube are swept at a time: their skin takes a megabyte or two.
const AT_A_TIME: usize = 256;

/// A mesh in the making. Stretches of skin that follow one another share the ring where they meet.
pub struct MeshInMaking {
    origin: SceneOrigin,
    per_mm: f64,
    left_out_mm: f64,
    positions: Vec<[f32; 3]>,
    normals: Vec<[f32; 3]>,
    around: Vec<[f32; 2]>,
    triangles: Vec<[u32; 3]>,
    /// The last ring, as it lies in the skin.
    last_ring: Vec<elbowroom_geometry::Point3<f64>>,
}

impl MeshInMaking {
    /// Nothing yet, in the scene. Its texture coordinates count repeats of the mark's pattern round and along the tube, so
    /// that patterns have one size everywhere; those along the tube count from `left_out_mm`, a station.
    pub fn new(od_mm: f64, origin: &SceneOrigin, left_out_mm: f64) -> Self {
        Self {
            origin: *origin,
            per_mm: 1.0 / repeat_mm(od_mm),
            left_out_mm,
            positions: Vec::new(),
            normals: Vec::new(),
            around: Vec::new(),
            triangles: Vec::new(),
            last_ring: Vec::new(),
        }
    }

    /// Takes in a stretch of skin.
    pub fn push(&mut self, skin: &SkinMesh, stretch: &Stretch) {
        let Some([a, _, b]) = skin.triangles[stretch.triangles.clone()].first() else { return };
        // The first triangle leads from the first ring to the next.
        let ring = (b - a) as usize;
        let first = stretch.vertices.start;
        let joins = !self.last_ring.is_empty() && skin.positions[first..].starts_with(&self.last_ring);
        let there = self.positions.len() - if joins { ring } else { 0 };
        let new = stretch.vertices.start + if joins { ring } else { 0 }..stretch.vertices.end;
        self.positions.extend(skin.positions[new.clone()].iter().map(|at| self.origin.point_array(at)));
        let normals = skin.normals[new.clone()].iter();
        self.normals.extend(normals.map(|normal| [normal.x as f32, normal.y as f32, normal.z as f32]));
        self.around.extend(skin.around[new].iter().map(|(angle, station_mm)| {
            let around = angle / std::f64::consts::TAU * REPEATS;
            [around as f32, ((station_mm - self.left_out_mm) * self.per_mm) as f32]
        }));
        let triangles = skin.triangles[stretch.triangles.clone()].iter();
        self.triangles.extend(triangles.map(|corners| corners.map(|corner| corner - first as u32 + there as u32)));
        self.last_ring.clear();
        self.last_ring.extend_from_slice(&skin.positions[stretch.vertices.end - ring..stretch.vertices.end]);
    }

    /// The corners of the box around it, in the scene.
    pub fn bounds(&self) -> (Vec3, Vec3) {
        let places = self.positions.iter().copied().map(Vec3::from_array);
        places.fold((Vec3::MAX, Vec3::MIN), |(low, high), at| (low.min(at), high.max(at)))
    }

    /// The mesh. Only the graphics card keeps it: what is drawn is never read back.
    pub fn mesh(self) -> Mesh {
        let corners = self.triangles.into_iter().flatten();
        let indices = if self.positions.len() <= usize::from(u16::MAX) {
            Indices::U16(corners.map(|corner| corner as u16).collect())
        } else {
            Indices::U32(corners.collect())
        };
        Mesh::new(PrimitiveTopology::TriangleList, RenderAssetUsages::RENDER_WORLD)
            .with_inserted_attribute(Mesh::ATTRIBUTE_POSITION, self.positions)
            .with_inserted_attribute(Mesh::ATTRIBUTE_NORMAL, self.normals)
            .with_inserted_attribute(Mesh::ATTRIBUTE_UV_0, self.around)
            .with_inserted_indices(indices)
    }
}

/// The mesh of a stretch in the scene.
pub fn stretch_mesh(skin: &SkinMesh, stretch: &Stretch, od_mm: f64, origin: &SceneOrigin) -> Mesh {
    let seamless_mm = seamless_mm(od_mm);
    let left_out_mm = (stretch.from_mm / seamless_mm).floor() * seamless_mm;
    let mut making = MeshInMaking::new(od_mm, origin, left_out_mm);
    making.push(skin, stretch);
    making.mesh()
}

/// The whole skin of a tube as one mesh.
pub fn whole_mesh(centreline: &Centreline, od_mm: f64, origin: &SceneOrigin) -> Mesh {
    let options =
        SkinOptions { chord_tolerance_mm: tolerance_for(centreline, od_mm, &[]), od_mm, ..SkinOptions::default() };
    let mut making = MeshInMaking::new(od_mm, origin, 0.0);
    let mut skin = SkinMesh::default();
    for (index, reference) in skin_references(centreline, AT_A_TIME).iter().enumerate() {
        let elements = index * AT_A_TIME..(index + 1) * AT_A_TIME;
        skin_of_elements_into(centreline, elements, reference, &options, &mut skin);
        for stretch in &skin.stretches {
            making.push(&skin, stretch);
        }
    }
    making.mesh()
}
