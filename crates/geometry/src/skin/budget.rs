//! How coarse a skin must be so that a long tube does not fill the memory.

use super::SkinOptions;
use super::rings::Ring;
use crate::{Centreline, ElementKind};

/// The tolerance is doubled this many times at most: by then the fewest facets and steps are reached on any tube.
const MOST_DOUBLINGS: usize = 24;

/// The chord tolerance, mm, at which the skin of a centreline has about `vertices` vertices or fewer: that of the
/// options where it does, else the first of its doubles that keeps within, or adds nothing any more. The fewest
/// facets and steps are never gone below.
pub fn tolerance_within(centreline: &Centreline, options: &SkinOptions, vertices: usize) -> f64 {
    let mut tolerance_mm = options.chord_tolerance_mm;
    let mut needed = vertices_of(centreline, options, tolerance_mm);
    for _ in 0..MOST_DOUBLINGS {
        let coarser_mm = 2.0 * tolerance_mm;
        if needed <= vertices {
            break;
        }
        needed = vertices_of(centreline, options, coarser_mm);
        tolerance_mm = coarser_mm;
    }
    tolerance_mm
}

/// How many vertices the skin has at a tolerance.
fn vertices_of(centreline: &Centreline, options: &SkinOptions, chord_tolerance_mm: f64) -> usize {
    let Some(ring) = Ring::new(options.od_mm, chord_tolerance_mm) else { return 0 };
    let rings = centreline.elements().iter().map(|element| match element.kind {
        ElementKind::Straight => 2,
        ElementKind::Arc { radius_mm, angle_rad } => 2 + (angle_rad / ring.arc_step(radius_mm)) as usize,
    });
    (rings.sum::<usize>() + 2 * options.cuts.len()) * ring.spokes.len()
}
