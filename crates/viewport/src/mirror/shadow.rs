//! The skin of the shown part, swept anew when the workbench's revision changes and never else. That of a long part is
//! not kept here: see `long`.

use bevy::platform::collections::HashMap;
use bevy::prelude::*;
use elbowroom_bending::{NodeId, Numbering, Part, Solved};
use elbowroom_geometry::{Centreline, Point3, SkinMesh, SkinOptions, skin_into, tolerance_within};
use elbowroom_workbench::Target;

use crate::camera::{middle, outline, reach_mm};
use crate::marks::{Mark, marks};

/// How far the triangles may lie from the true skin, mm.
pub const CHORD_TOLERANCE_MM: f64 = 0.25;
/// The skin is drawn coarser where it would have more vertices than this: a tube of 500 bends of 90° just has
/// not. On a screen that shows a longer one whole nobody sees the difference.
const MOST_VERTICES: usize = 400_000;
/// A part of more bends than this is long: its skin stands in chunks instead of a stretch for every straight and arc.
pub const LONG_BENDS: usize = 500;

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
    /// Whether the part is long.
    pub is_long: bool,
    /// The chord tolerance, mm, at which the skin is swept.
    pub chord_tolerance_mm: f64,
    /// The skin, cut at the edges of the marks; empty for a long part.
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
}

impl Shadow {
    /// Makes the skin and the marks of a part.
    pub fn follow(&mut self, part: &Part, solved: &Solved) {
        self.marks = marks(&solved.findings, solved.centreline.stations_mm(), part.tube.od.mm());
        let cuts: Vec<f64> = self.marks.iter().flat_map(|mark| [mark.from_mm, mark.to_mm]).collect();
        let od_mm = part.tube.od.mm();
        self.chord_tolerance_mm = tolerance_for(&solved.centreline, od_mm, &cuts);
        self.is_long = solved.centreline.bends() > LONG_BENDS;
        if self.is_long {
            // The memory is given back as well.
            (self.skin, self.before) = (SkinMesh::default(), SkinMesh::default());
            (self.names, self.places_before) = (Vec::new(), HashMap::default());
        } else {
            std::mem::swap(&mut self.skin, &mut self.before);
            let chord_tolerance_mm = self.chord_tolerance_mm;
            let options = SkinOptions { od_mm, chord_tolerance_mm, cuts: &cuts, ..SkinOptions::default() };
            skin_into(&solved.centreline, &options, &mut self.skin);
            self.places_before.clear();
            self.places_before.extend(self.names.drain(..).enumerate().map(|(place, name)| (name, place)));
            self.names.extend(names(&self.skin, &solved.nodes));
        }
        let points = outline(&solved.centreline, |_| true);
        self.middle = middle(&points).unwrap_or_else(Point3::origin);
        self.reach_mm = reach_mm(&points, &self.middle) + part.tube.od.mm();
    }

    /// Whether there is any skin to be seen.
    pub fn has_skin(&self) -> bool {
        self.is_long || !self.skin.stretches.is_empty()
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

/// The chord tolerance, mm, at which a tube is drawn.
pub fn tolerance_for(centreline: &Centreline, od_mm: f64, cuts: &[f64]) -> f64 {
    let options = SkinOptions { od_mm, chord_tolerance_mm: CHORD_TOLERANCE_MM, cuts, ..SkinOptions::default() };
    tolerance_within(centreline, &options, MOST_VERTICES)
}
