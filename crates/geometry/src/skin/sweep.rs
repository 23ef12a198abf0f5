//! Sweeps the ring along the centreline.

use std::ops::Range;

use super::rings::{Ring, Stand};
use super::{Ends, SkinMesh, SkinOptions, Stretch};
use crate::{Centreline, Element, ElementKind, Frame, Vector3};

/// Edges of stretches nearer to one another than this are one, mm: a nanometre cannot be seen or bent.
const SAME_EDGE_MM: f64 = 1e-6;

/// The skin of a tube along a centreline.
///
/// Straights of negative length draw nothing, so overlapping arcs are drawn as they lie, one run of skin
/// behind the other. A bend of radius 0 is drawn as a ball joint.
pub fn skin(centreline: &Centreline, options: &SkinOptions) -> SkinMesh {
    let mut mesh = SkinMesh::default();
    skin_into(centreline, options, &mut mesh);
    mesh
}

/// As [`skin`], into a mesh whose memory is used again.
pub fn skin_into(centreline: &Centreline, options: &SkinOptions, mesh: &mut SkinMesh) {
    let elements = centreline.elements();
    skin_of_elements_into(centreline, 0..elements.len(), &elements[0].start.normal, options, mesh);
}

/// The skin of some elements that follow each other, as [`skin_into`]: of a long tube one after the other. `reference` is
/// the direction from which angles round the tube are counted at the start of the first of them, as
/// [`skin_references`] gives it. Where one such skin ends and the next begins, their vertices lie within a rounding
/// error of each other.
pub fn skin_of_elements_into(
    centreline: &Centreline,
    range: Range<usize>,
    reference: &Vector3<f64>,
    options: &SkinOptions,
    mesh: &mut SkinMesh,
) {
    mesh.clear();
    let Some(ring) = Ring::new(options.od_mm, options.chord_tolerance_mm) else { return };
    let mut cuts: Vec<f64> = options.cuts.iter().copied().filter(|cut| cut.is_finite()).collect();
    cuts.sort_by(f64::total_cmp);
    let mut sweep = Sweep { ring, mesh, closed: options.ends == Ends::Closed };
    let elements = centreline.elements();
    let range = range.start.min(elements.len())..range.end.min(elements.len());
    sweep.reserve(&elements[range.clone()], cuts.len());
    let mut reference = *reference;
    let mut in_run = false;
    for (index, element) in elements.iter().enumerate().take(range.end).skip(range.start) {
        reference = squared(&reference, &element.start);
        if is_drawn(element) {
            let begins = !in_run;
            let ends = !next_joins(elements, index);
            sweep.element(index, element, &reference, &cuts, begins, ends);
            in_run = !ends;
        }
        reference = Stand::on(element, element.end(), &reference).reference;
    }
}

/// The direction from which angles round the tube are counted, at the start of the first and of every `step`th element
/// behind it.
pub fn skin_references(centreline: &Centreline, step: usize) -> Vec<Vector3<f64>> {
    let elements = centreline.elements();
    let mut references = Vec::with_capacity(elements.len() / step.max(1) + 1);
    let mut reference = elements[0].start.normal;
    for (index, element) in elements.iter().enumerate() {
        reference = squared(&reference, &element.start);
        if index.is_multiple_of(step.max(1)) {
            references.push(reference);
        }
        reference = Stand::on(element, element.end(), &reference).reference;
    }
    references
}

/// Whether an element has any skin. A bend of radius 0 has no length but turns the tube all the same.
fn is_drawn(element: &Element) -> bool {
    match element.kind {
        ElementKind::Straight => element.length_mm > 0.0,
        ElementKind::Arc { angle_rad, .. } => angle_rad > 0.0,
    }
}

/// Whether the next element that is drawn begins where this one ends.
fn next_joins(elements: &[Element], index: usize) -> bool {
    elements[index + 1..].iter().take_while(|next| next.length_mm >= 0.0).any(is_drawn)
}

/// The reference direction brought back to a right angle with the tangent, against rounding.
fn squared(reference: &Vector3<f64>, frame: &Frame) -> Vector3<f64> {
    (reference - frame.tangent * frame.tangent.dot(reference)).normalize()
}

/// The mesh that is being built.
struct Sweep<'a> {
    ring: Ring,
    mesh: &'a mut SkinMesh,
    closed: bool,
}

impl Sweep<'_> {
    /// Makes room for the whole skin at once.
    fn reserve(&mut self, elements: &[Element], cuts: usize) {
        let steps = |element: &Element| match element.kind {
            ElementKind::Straight => 2,
            ElementKind::Arc { radius_mm, angle_rad } => 2 + (angle_rad / self.ring.arc_step(radius_mm)) as usize,
        };
        let rings = 2 + 2 * cuts + elements.iter().map(steps).sum::<usize>();
        let vertices = rings * self.ring.spokes.len();
        self.mesh.positions.reserve(vertices);
        self.mesh.normals.reserve(vertices);
        self.mesh.around.reserve(vertices);
        self.mesh.triangles.reserve(2 * vertices);
        self.mesh.stretches.reserve(elements.len() + cuts);
    }

    /// Draws one element, cut into stretches.
    fn element(
        &mut self,
        index: usize,
        element: &Element,
        reference: &Vector3<f64>,
        cuts: &[f64],
        begins: bool,
        ends: bool,
    ) {
        let (from_mm, to_mm) = (element.from_mm, element.to_mm());
        let mut here_mm = from_mm;
        let mut stretch = |to: f64, begins, ends| {
            self.stretch(index, element, reference, (here_mm, to), begins, ends);
            here_mm = to;
        };
        let mut last_mm = from_mm;
        for &cut in &cuts[cuts.partition_point(|cut| *cut <= from_mm)..] {
            if cut > to_mm - SAME_EDGE_MM {
                break;
            }
            if cut - last_mm > SAME_EDGE_MM {
                stretch(cut, begins && last_mm == from_mm, false);
                last_mm = cut;
            }
        }
        stretch(to_mm, begins && last_mm == from_mm, ends);
    }

    /// Draws the stretch between two stations of one element.
    fn stretch(
        &mut self,
        index: usize,
        element: &Element,
        reference: &Vector3<f64>,
        (from_mm, to_mm): (f64, f64),
        begins: bool,
        ends: bool,
    ) {
        let (first_vertex, first_triangle) = (self.mesh.positions.len(), self.mesh.triangles.len());
        let steps = match element.kind {
            ElementKind::Straight => 1,
            ElementKind::Arc { radius_mm, angle_rad } => {
                let share = if element.length_mm > 0.0 { (to_mm - from_mm) / element.length_mm } else { 1.0 };
                // The allowance keeps a whole number of steps from gaining one by rounding.
                ((angle_rad * share / self.ring.arc_step(radius_mm) - 1e-9).ceil() as usize).max(1)
            }
        };
        for step in 0..=steps {
            let share = step as f64 / steps as f64;
            let station_mm = if step == steps { to_mm } else { from_mm + (to_mm - from_mm) * share };
            let frame = if element.length_mm > 0.0 {
                element.frame_at(element.along_mm(station_mm))
            } else {
                element.turned(share)
            };
            let stand = Stand::on(element, frame, reference);
            if step == 0 && begins && self.closed {
                self.cap(&stand, station_mm, true);
            }
            if step == 0 && !begins {
                self.same_ring();
                continue;
            }
            self.ring(&stand, station_mm);
            if step > 0 {
                self.band();
            }
            if step == steps && ends && self.closed {
                self.cap(&stand, station_mm, false);
            }
        }
        let (vertices, triangles) =
            (first_vertex..self.mesh.positions.len(), first_triangle..self.mesh.triangles.len());
        self.mesh.stretches.push(Stretch { from_mm, to_mm, element: index, triangles, vertices });
    }

    /// Adds a ring of vertices.
    fn ring(&mut self, stand: &Stand, station_mm: f64) {
        let (origin, across) = (stand.frame.origin, stand.frame.tangent.cross(&stand.reference));
        let radius_mm = self.ring.radius_mm;
        let spokes = &self.ring.spokes;
        self.mesh.normals.extend(spokes.iter().map(|(_, cos, sin)| stand.reference * *cos + across * *sin));
        let normals = &self.mesh.normals[self.mesh.normals.len() - spokes.len()..];
        self.mesh.positions.extend(normals.iter().map(|normal| origin + normal * radius_mm));
        self.mesh.around.extend(spokes.iter().map(|(angle, ..)| (*angle, station_mm)));
    }

    /// Adds the last ring once more, for the next stretch to start from.
    fn same_ring(&mut self) {
        let from = self.mesh.positions.len() - self.ring.spokes.len();
        self.mesh.positions.extend_from_within(from..);
        self.mesh.normals.extend_from_within(from..);
        self.mesh.around.extend_from_within(from..);
    }

    /// Joins the last two rings.
    fn band(&mut self) {
        let count = self.ring.spokes.len() as u32;
        let after = self.mesh.positions.len() as u32 - count;
        let before = after - count;
        self.mesh.triangles.extend((0..count - 1).flat_map(|spoke| {
            let (a, b) = (before + spoke, after + spoke);
            [[a, a + 1, b], [a + 1, b + 1, b]]
        }));
    }

    /// Closes an end with a disc that looks back (at the lead end of a run) or ahead.
    fn cap(&mut self, stand: &Stand, station_mm: f64, back: bool) {
        let outward = if back { -stand.frame.tangent } else { stand.frame.tangent };
        let centre = self.mesh.positions.len() as u32;
        self.mesh.positions.push(stand.frame.origin);
        self.mesh.around.push((0.0, station_mm));
        self.mesh.normals.push(outward);
        self.ring(stand, station_mm);
        let count = self.ring.spokes.len();
        let rim = self.mesh.normals.len() - count;
        self.mesh.normals[rim..].fill(outward);
        self.mesh.triangles.extend((1..count as u32).map(|spoke| {
            let (a, b) = (centre + spoke, centre + spoke + 1);
            if back { [centre, b, a] } else { [centre, a, b] }
        }));
    }
}
