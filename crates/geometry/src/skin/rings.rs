//! How many facets a skin needs, and the ring of vertices that is carried along the tube.

use std::f64::consts::{FRAC_PI_6, PI, TAU};

use crate::{Element, ElementKind, Frame, Vector3};

/// The fewest facets round a tube, whatever the tolerance: fewer do not look like a tube.
const FEWEST_FACETS: usize = 8;
/// The shortest step along an arc, rad. It bounds the memory that a radius of kilometres takes; at a
/// tolerance of 0.25 mm it is reached by radii beyond 250 m.
const SHORTEST_STEP: f64 = 0.002;

/// The half-step (rad) whose chord leaves a circle of `radius_mm` by `sagitta_mm`: s = R(1 − cos(θ/2))
/// (mid-ordinate, G07).
fn half_step(radius_mm: f64, sagitta_mm: f64) -> f64 {
    // 1 − cos x = 2 sin²(x/2), which keeps its digits where the sagitta is small.
    2.0 * (sagitta_mm / (2.0 * radius_mm)).sqrt().min(1.0).asin()
}

/// The directions of a ring's vertices, computed once and used by every ring.
pub(super) struct Ring {
    /// Radius of the tube, mm.
    pub radius_mm: f64,
    /// What each of the two chord errors may be, mm.
    sagitta_mm: f64,
    /// (angle, cosine, sine) of each vertex; the last one repeats the first.
    pub spokes: Vec<(f64, f64, f64)>,
}

impl Ring {
    /// A ring for an outside diameter and tolerance (mm); `None` where there is nothing to draw.
    pub fn new(od_mm: f64, chord_tolerance_mm: f64) -> Option<Self> {
        if !(od_mm.is_finite() && od_mm > 0.0) {
            return None;
        }
        // NaN and too fine a tolerance both end at the finest one.
        let sagitta_mm = chord_tolerance_mm.max(1e-4 * od_mm) / 2.0;
        let radius_mm = od_mm / 2.0;
        let facets = ((PI / half_step(radius_mm, sagitta_mm)).ceil() as usize).max(FEWEST_FACETS);
        let spoke = |index: usize| {
            let angle = TAU * index as f64 / facets as f64;
            let (sin, cos) = angle.sin_cos();
            (angle, cos, sin)
        };
        let mut spokes: Vec<_> = (0..=facets).map(spoke).collect();
        spokes[facets] = (TAU, 1.0, 0.0);
        Some(Self { radius_mm, sagitta_mm, spokes })
    }

    /// The largest step (rad) along an arc of the given centreline radius.
    pub fn arc_step(&self, clr_mm: f64) -> f64 {
        (2.0 * half_step(clr_mm + self.radius_mm, self.sagitta_mm)).clamp(SHORTEST_STEP, FRAC_PI_6)
    }
}

/// Where a ring stands: the element's frame there and the untwisted reference direction.
pub(super) struct Stand {
    /// Frame of the element.
    pub frame: Frame,
    /// Unit reference direction, at right angles to the tangent.
    pub reference: Vector3<f64>,
}

impl Stand {
    /// The ring at `along_mm` from the start of `element`, given the reference direction at the start of
    /// the element. An arc turns it with its own frame, a straight leaves it alone: that is parallel
    /// transport, so the skin never twists.
    pub fn on(element: &Element, frame: Frame, at_start: &Vector3<f64>) -> Self {
        let reference = match element.kind {
            ElementKind::Straight => *at_start,
            ElementKind::Arc { .. } => {
                let (along_normal, along_axis) =
                    (at_start.dot(&element.start.normal), at_start.dot(&element.start.binormal()));
                frame.normal * along_normal + frame.binormal() * along_axis
            }
        };
        Self { frame, reference }
    }
}
