//! A hollow tube as triangles: every edge belongs to two of them, so that the mesh bounds a solid.

use std::f64::consts::{FRAC_PI_6, PI, TAU};

use elbowroom_geometry::{Element, ElementKind, Frame, Point3, Vector3};

use crate::error::TextError;

/// How far the triangles lie from the true tube at most, mm: what a printer or a picture shows (common practice, no
/// source). Half is spent round the tube, half along its arcs.
pub(super) const CHORD_TOLERANCE_MM: f64 = 0.05;
/// Fewer facets do not look like a tube.
const FEWEST_FACETS: usize = 16;
/// The most triangles of a file: 1 GB of STL. A bound on memory.
const MOST_TRIANGLES: usize = 20_000_000;

/// A hollow mesh.
pub(super) struct Hollow {
    /// Places of vertices, mm.
    pub positions: Vec<Point3<f64>>,
    /// Unit normals, one a vertex.
    pub normals: Vec<Vector3<f64>>,
    /// Triangles in bands along the tube, from start to finish.
    pub bands: Vec<Band>,
}

/// The triangles between two places along the tube; at an end both are one.
pub(super) struct Band {
    /// Where it begins, mm along the tube.
    pub from_mm: f64,
    /// Where it ends.
    pub to_mm: f64,
    /// Its triangles, anticlockwise seen from outside the metal.
    pub triangles: Vec<[u32; 3]>,
}

/// A cross-section.
struct Ring {
    frame: Frame,
    reference: Vector3<f64>,
    at_mm: f64,
}

/// The mesh of a tube that follows these straights and arcs, radii in mm; bands end at every one of `cuts`, mm along the
/// tube.
///
/// # Errors
/// Refuses a tube of more triangles than a file is to hold.
pub(super) fn hollow(run: &[Element], outer_mm: f64, inner_mm: f64, cuts: &[f64]) -> Result<Hollow, TextError> {
    let facets = ((PI / half_step(outer_mm)).ceil() as usize).max(FEWEST_FACETS);
    let rings = rings(run, outer_mm, cuts);
    if rings.len().saturating_mul(4 * facets) > MOST_TRIANGLES {
        let what = format!("its mesh would have more than {MOST_TRIANGLES} triangles");
        return Err(TextError::whole(what, "it must be shorter or have fewer bends; write it as STEP instead"));
    }
    let spokes: Vec<(f64, f64)> = (0..facets).map(|index| (TAU * index as f64 / facets as f64).sin_cos()).collect();
    let mut mesh = Hollow { positions: Vec::new(), normals: Vec::new(), bands: Vec::with_capacity(rings.len() + 1) };
    for ring in &rings {
        mesh.ring(ring, &spokes, outer_mm, |round| round);
        mesh.ring(ring, &spokes, inner_mm, |round| -round);
    }
    let around = facets as u32;
    mesh.end(&rings[0], &spokes, [outer_mm, inner_mm], true);
    for (index, pair) in rings.windows(2).enumerate() {
        let before = index as u32 * 2 * around;
        let after = before + 2 * around;
        let mut triangles = Vec::with_capacity(4 * facets);
        for spoke in 0..around {
            let next = (spoke + 1) % around;
            let (a, b, c, d) = (before + spoke, before + next, after + spoke, after + next);
            triangles.extend([[a, b, c], [b, d, c]]);
            let [a, b, c, d] = [a, b, c, d].map(|vertex| vertex + around);
            triangles.extend([[a, c, b], [b, c, d]]);
        }
        mesh.bands.push(Band { from_mm: pair[0].at_mm, to_mm: pair[1].at_mm, triangles });
    }
    mesh.end(&rings[rings.len() - 1], &spokes, [outer_mm, inner_mm], false);
    Ok(mesh)
}

/// Half the step (rad) whose chord leaves a circle of this radius by half the tolerance: s = R(1 − cos(θ/2))
/// (mid-ordinate; G07 of the published facts).
fn half_step(radius_mm: f64) -> f64 {
    2.0 * (CHORD_TOLERANCE_MM / 4.0 / radius_mm).sqrt().min(1.0).asin()
}

fn rings(run: &[Element], outer_mm: f64, cuts: &[f64]) -> Vec<Ring> {
    let mut rings: Vec<Ring> = Vec::new();
    let mut reference = run[0].start.normal;
    for element in run {
        let start = element.start;
        reference = (reference - start.tangent * start.tangent.dot(&reference)).normalize();
        let (across, along) = (reference.dot(&start.normal), reference.dot(&start.binormal()));
        let steps = match element.kind {
            ElementKind::Straight => 1,
            ElementKind::Arc { radius_mm, angle_rad } => {
                let step = (2.0 * half_step(radius_mm + outer_mm)).clamp(0.002, FRAC_PI_6);
                ((angle_rad / step).ceil() as usize).max(1)
            }
        };
        let mut at: Vec<f64> = (0..=steps).map(|step| element.length_mm * step as f64 / steps as f64).collect();
        // A cut next to a ring that is there already is that ring: a thousandth of a millimetre cannot be seen.
        let inside = cuts.iter().map(|cut| cut - element.from_mm);
        let far = |cut: &f64| *cut > 1e-3 && *cut < element.length_mm - 1e-3;
        at.extend(inside.filter(far));
        at.sort_by(f64::total_cmp);
        at.dedup_by(|next, before| *next - *before < 1e-3);
        if rings.is_empty() {
            rings.push(Ring { frame: start, reference, at_mm: element.from_mm });
        }
        for along_mm in at.into_iter().skip(1) {
            let frame = element.frame_at(along_mm);
            let reference = match element.kind {
                ElementKind::Straight => reference,
                ElementKind::Arc { .. } => frame.normal * across + frame.binormal() * along,
            };
            rings.push(Ring { frame, reference, at_mm: element.from_mm + along_mm });
        }
        reference = rings[rings.len() - 1].reference;
    }
    rings
}

impl Hollow {
    fn ring(
        &mut self,
        ring: &Ring,
        spokes: &[(f64, f64)],
        radius_mm: f64,
        normal: impl Fn(Vector3<f64>) -> Vector3<f64>,
    ) {
        let across = ring.frame.tangent.cross(&ring.reference);
        for (sin, cos) in spokes {
            let round = ring.reference * *cos + across * *sin;
            self.positions.push(ring.frame.origin + round * radius_mm);
            self.normals.push(normal(round));
        }
    }

    /// The ring between outside and bore at an end, with vertices of its own, since it faces another way.
    fn end(&mut self, ring: &Ring, spokes: &[(f64, f64)], radii_mm: [f64; 2], back: bool) {
        let around = spokes.len() as u32;
        let outer = self.positions.len() as u32;
        let outward = if back { -ring.frame.tangent } else { ring.frame.tangent };
        for radius_mm in radii_mm {
            self.ring(ring, spokes, radius_mm, |_| outward);
        }
        let mut triangles = Vec::with_capacity(2 * spokes.len());
        for spoke in 0..around {
            let next = (spoke + 1) % around;
            let (a, b, c, d) = (outer + spoke, outer + next, outer + around + spoke, outer + around + next);
            let faces = if back { [[a, c, b], [c, d, b]] } else { [[a, b, c], [c, b, d]] };
            triangles.extend(faces);
        }
        self.bands.push(Band { from_mm: ring.at_mm, to_mm: ring.at_mm, triangles });
    }
}
