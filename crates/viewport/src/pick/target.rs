//! The handles of the part, and what of handles and tube the pointer means.

use bevy::math::Vec2;
use elbowroom_bending::{Part, Path, Solved};
use elbowroom_geometry::{Point3, Vector3, handles};
use elbowroom_workbench::Target;

use super::{TubeHit, pick_tube};
use crate::camera::View;

/// How near to a handle's middle the pointer must be to mean it, logical pixels: a little more than is drawn.
const REACH_PIXELS: f32 = 11.0;

/// Something that can be dragged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Knob {
    /// What it is.
    pub target: Target,
    /// Where it is, mm.
    pub at: Point3<f64>,
    /// The unit direction along which alone it can be dragged; `None` where it moves freely.
    pub slides_along: Option<Vector3<f64>>,
}

/// Everything that can be dragged: the handles of the path, and the vertices that carry no bend.
pub fn knobs(part: &Part, solved: &Solved) -> Vec<Knob> {
    let handles = handles(&solved.form.path).into_iter();
    let mut knobs: Vec<_> = handles
        .map(|handle| Knob { target: Target::Handle(handle.id), at: handle.point, slides_along: handle.slides_along })
        .collect();
    if let Path::Vertices(path) = &part.path {
        let inner = 1..path.points().len().saturating_sub(1);
        let plain = inner.filter(|vertex| solved.form.vertex_of_bend.binary_search(vertex).is_err());
        knobs.extend(plain.map(|vertex| Knob {
            target: Target::Vertex(vertex),
            at: path.points()[vertex],
            slides_along: None,
        }));
    }
    knobs.retain(|knob| knob.at.iter().all(|coordinate| coordinate.is_finite()));
    knobs
}

/// The bend that something which can be dragged belongs to; a vertex that had none may get one while it is dragged.
pub fn bend_of_knob(target: Target, solved: &Solved) -> Option<usize> {
    match target {
        Target::Handle(handle) => handle.bend(),
        Target::Vertex(vertex) => solved.form.vertex_of_bend.binary_search(&vertex).ok(),
        Target::Straight(_) | Target::Bend(_) => None,
    }
}

/// What the pointer means.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hit {
    /// A handle.
    Knob(Knob),
    /// A straight or an arc.
    Tube(TubeHit),
}

impl Hit {
    /// What it is called in commands.
    pub fn target(&self) -> Target {
        match self {
            Self::Knob(knob) => knob.target,
            Self::Tube(hit) if hit.element % 2 == 0 => Target::Straight(hit.element / 2),
            Self::Tube(hit) => Target::Bend(hit.element / 2),
        }
    }
}

/// What lies below a place in the window: a handle before the tube, and of several handles the one whose
/// middle is nearest to the pointer.
pub fn pick(view: &View, at: Vec2, part: &Part, solved: &Solved) -> Option<Hit> {
    let reached = knobs(part, solved).into_iter().filter_map(|knob| {
        let pixels = view.project(&knob.at)?.distance(at);
        (pixels <= REACH_PIXELS).then_some((pixels, knob))
    });
    if let Some((_, knob)) = reached.min_by(|a, b| a.0.total_cmp(&b.0)) {
        return Some(Hit::Knob(knob));
    }
    pick_tube(&view.ray(at), &solved.centreline, part.tube.od.mm() / 2.0).map(Hit::Tube)
}
