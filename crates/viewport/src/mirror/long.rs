//! The skin of a long part. An entity and a mesh for every straight and arc would take thousands of times the memory of
//! the file it came from; here those of many neighbours stand together in a chunk, one mesh for each paint that is worn
//! in it. A chunk is swept by itself, and anew only when something in it has changed.

use std::hash::{BuildHasher, Hash, Hasher};
use std::ops::Range;

use bevy::camera::primitives::Aabb;
use bevy::camera::visibility::NoAutoAabb;
use bevy::platform::hash::FixedHasher;
use bevy::prelude::*;
use elbowroom_bending::Solved;
use elbowroom_geometry::{
    Centreline, Element, ElementKind, SkinMesh, SkinOptions, Vector3, skin_of_elements_into, skin_references,
};
use elbowroom_workbench::{Selection, Target};

use super::Shadow;
use super::meshes::MeshInMaking;
use crate::Desk;
use crate::look::{Lit, Paints, Wearer};
use crate::marks::{Mark, severity_at};
use crate::place::SceneOrigin;

/// Straights and arcs in a chunk: few enough that lighting one up is done in a fraction of a frame, many enough that
/// tens of thousands of them make some hundred meshes.
pub const CHUNK: usize = 128;
/// Places that differ by less than this, mm, and directions by less than its ten-thousandth part, are the same to the
/// eye: what lies behind an edit keeps its place but for rounding.
const SAME_MM: f64 = 1e-4;

/// A mesh of a chunk.
#[derive(Component, Clone, Copy, Debug, PartialEq, Eq)]
pub struct ChunkPiece {
    /// Which chunk, counted from 0 along the tube.
    pub chunk: usize,
    /// What its paint says.
    pub wearer: Wearer,
}

/// What stands of a chunk.
#[derive(Debug, Default)]
struct Chunk {
    /// What it was made of.
    stamp: u64,
    pieces: Vec<(Wearer, Entity, Handle<Mesh>)>,
}

/// The skin of a long part as it stands.
#[derive(Resource, Default)]
pub struct LongSkin {
    revision: Option<u64>,
    chunks: Vec<Chunk>,
    /// How each straight and arc is lit up.
    lit: Vec<Lit>,
    references: Vec<Vector3<f64>>,
    skin: SkinMesh,
    /// How many chunks were swept since the program began.
    pub swept: u64,
}

impl LongSkin {
    /// How many meshes stand.
    pub fn standing(&self) -> usize {
        self.chunks.iter().map(|chunk| chunk.pieces.len()).sum()
    }
}

/// What a chunk is made of.
struct Making<'a> {
    centreline: &'a Centreline,
    elements: Range<usize>,
    reference: &'a Vector3<f64>,
    marks: &'a [Mark],
    lit: &'a [Lit],
    od_mm: f64,
    chord_tolerance_mm: f64,
    origin: &'a SceneOrigin,
}

/// Makes the chunks follow a long part, and what of it is selected and pointed at.
#[allow(clippy::too_many_arguments, reason = "a system names each resource it touches")]
pub fn follow_long_part(
    desk: Res<Desk>,
    shadow: Res<Shadow>,
    origin: Res<SceneOrigin>,
    paints: Res<Paints>,
    mut long: ResMut<LongSkin>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut commands: Commands,
    pieces: Query<Entity, With<ChunkPiece>>,
) {
    let is_whole = pieces.iter().len() == long.standing();
    if !shadow.is_long || !is_whole {
        if !pieces.is_empty() || !long.chunks.is_empty() {
            pieces.iter().for_each(|entity| commands.entity(entity).despawn());
            *long = LongSkin { swept: long.swept, ..LongSkin::default() };
        }
        if !shadow.is_long {
            return;
        }
    }
    let solved = desk.0.solved();
    let centreline = &solved.centreline;
    let lit = lit(solved, desk.0.selection(), desk.0.hover());
    let is_new = long.revision != shadow.revision || origin.is_changed();
    if !is_new && long.lit == lit {
        return;
    }
    let LongSkin { revision, chunks, lit: lit_before, references, skin, swept } = &mut *long;
    if is_new {
        *revision = shadow.revision;
        *references = skin_references(centreline, CHUNK);
        for chunk in chunks.drain(references.len().min(chunks.len())..) {
            chunk.pieces.into_iter().for_each(|(_, entity, _)| commands.entity(entity).despawn());
        }
        chunks.resize_with(references.len(), Chunk::default);
    }
    for (index, (chunk, reference)) in chunks.iter_mut().zip(references.iter()).enumerate() {
        let elements = index * CHUNK..((index + 1) * CHUNK).min(centreline.elements().len());
        if !is_new && lit_before.get(elements.clone()) == Some(&lit[elements.clone()]) {
            continue;
        }
        let (marks, lit) = (within(&shadow.marks, &centreline.elements()[elements.clone()]), &lit[elements.clone()]);
        let (od_mm, chord_tolerance_mm) = (shadow.od_mm, shadow.chord_tolerance_mm);
        let making = Making { centreline, elements, reference, marks, lit, od_mm, chord_tolerance_mm, origin: &origin };
        let stamp = making.stamp();
        if stamp == chunk.stamp && !chunk.pieces.is_empty() {
            continue;
        }
        *swept += 1;
        let mut before = std::mem::take(&mut chunk.pieces);
        chunk.stamp = stamp;
        for (wearer, made) in making.made(skin) {
            let (low, high) = made.bounds();
            let bounds = Aabb::from_min_max(low, high);
            let known = before.iter().position(|(worn, ..)| *worn == wearer);
            let (entity, handle) = match known.map(|known| before.swap_remove(known)) {
                Some((_, entity, handle)) => {
                    // The handle lives, so its place among the assets does.
                    let _ = meshes.insert(handle.id(), made.mesh());
                    commands.entity(entity).insert(bounds);
                    (entity, handle)
                }
                None => {
                    let handle = meshes.add(made.mesh());
                    let piece = ChunkPiece { chunk: index, wearer };
                    let (mesh, paint) = (Mesh3d(handle.clone()), MeshMaterial3d(paints.of(wearer)));
                    let spawned = commands.spawn((piece, mesh, paint, Transform::IDENTITY, bounds, NoAutoAabb));
                    (spawned.id(), handle)
                }
            };
            chunk.pieces.push((wearer, entity, handle));
        }
        before.into_iter().for_each(|(_, entity, _)| commands.entity(entity).despawn());
    }
    *lit_before = lit;
}

/// From the first to the last station of some elements, mm.
fn stations_mm(elements: &[Element]) -> (f64, f64) {
    let ends = elements.iter().flat_map(|element| [element.from_mm, element.to_mm()]);
    ends.fold((f64::MAX, f64::MIN), |(low, high), end| (low.min(end), high.max(end)))
}

/// The marks that touch some elements.
fn within<'a>(marks: &'a [Mark], elements: &[Element]) -> &'a [Mark] {
    let (from_mm, to_mm) = stations_mm(elements);
    let first = marks.partition_point(|mark| mark.to_mm <= from_mm);
    let last = marks.partition_point(|mark| mark.from_mm < to_mm);
    &marks[first..last.max(first)]
}

/// How each straight and arc is lit up. A bend is lit by its handles too.
fn lit(solved: &Solved, selection: &Selection, hover: Option<Target>) -> Vec<Lit> {
    let mut lit = vec![Lit::Plain; solved.centreline.elements().len()];
    let mut light = |target: Target, light| {
        let element = match target {
            Target::Straight(straight) => Some(2 * straight),
            other => other.bend().map(|bend| 2 * bend + 1),
        };
        if let Some(lit) = element.and_then(|element| lit.get_mut(element)) {
            *lit = light;
        }
    };
    hover.into_iter().for_each(|target| light(target, Lit::Hovered));
    selection.targets().iter().for_each(|target| light(*target, Lit::Selected));
    lit
}

impl Making<'_> {
    fn elements(&self) -> &[Element] {
        &self.centreline.elements()[self.elements.clone()]
    }

    fn begins_mm(&self) -> f64 {
        self.elements().first().map_or(0.0, |element| element.from_mm)
    }

    /// A number that is another one when anything is to be seen of it that is other than before.
    fn stamp(&self) -> u64 {
        let mut hasher = FixedHasher.build_hasher();
        let mut exact = |value: f64| hasher.write_u64(value.to_bits());
        let SceneOrigin(origin) = self.origin;
        [self.od_mm, self.chord_tolerance_mm, origin.x, origin.y, origin.z].into_iter().for_each(&mut exact);
        let mut near = |value: f64, step: f64| hasher.write_i64((value / step).round() as i64);
        let same_turn = SAME_MM * 1e-4;
        self.reference.iter().for_each(|value| near(*value, same_turn));
        let from_mm = self.begins_mm();
        for element in self.elements() {
            near(element.length_mm, SAME_MM);
            if let ElementKind::Arc { radius_mm, angle_rad } = element.kind {
                near(radius_mm, SAME_MM);
                near(angle_rad, same_turn);
            }
            element.start.origin.iter().for_each(|value| near(*value, SAME_MM));
            let directions = element.start.tangent.iter().chain(element.start.normal.iter());
            directions.for_each(|value| near(*value, same_turn));
        }
        // Of a mark that goes on beyond the chunk only what lies within can be seen here.
        let (first_mm, last_mm) = stations_mm(self.elements());
        for mark in self.marks {
            near(mark.from_mm.max(first_mm) - from_mm, SAME_MM);
            near(mark.to_mm.min(last_mm) - from_mm, SAME_MM);
            near(f64::from(mark.severity as u8), 1.0);
        }
        self.lit.hash(&mut hasher);
        hasher.finish()
    }

    /// The meshes, one for each paint.
    fn made(&self, skin: &mut SkinMesh) -> Vec<(Wearer, MeshInMaking)> {
        let cuts: Vec<f64> = self.marks.iter().flat_map(|mark| [mark.from_mm, mark.to_mm]).collect();
        let options = SkinOptions {
            od_mm: self.od_mm,
            chord_tolerance_mm: self.chord_tolerance_mm,
            cuts: &cuts,
            ..SkinOptions::default()
        };
        skin_of_elements_into(self.centreline, self.elements.clone(), self.reference, &options, skin);
        let mut made: Vec<(Wearer, MeshInMaking)> = Vec::new();
        for stretch in &skin.stretches {
            let severity = severity_at(self.marks, (stretch.from_mm + stretch.to_mm) / 2.0);
            let wearer = Wearer::Stretch(severity, self.lit[stretch.element - self.elements.start]);
            let there = made.iter().position(|(worn, _)| *worn == wearer).unwrap_or_else(|| {
                made.push((wearer, MeshInMaking::new(self.od_mm, self.origin, self.begins_mm())));
                made.len() - 1
            });
            made[there].1.push(skin, stretch);
        }
        made
    }
}
