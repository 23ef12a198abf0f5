//! The handles of the part, and what of handles and tube the pointer means.

use bevy::math::Vec2;
use elbowroom_bending::{Part, Path, Solved, TubeId};
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

/// A tube that is shown and not worked on.
#[derive(Clone, Copy, Debug)]
pub struct Bystander<'a> {
    /// By which the system knows it.
    pub id: TubeId,
    /// What is drawn.
    pub part: &'a Part,
    /// The same, solved.
    pub solved: &'a Solved,
}

/// What the pointer means.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hit {
    /// A handle.
    Knob(Knob),
    /// A straight or an arc.
    Tube(TubeHit),
    /// A tube that is not worked on.
    Other(TubeId, TubeHit),
}

impl TubeHit {
    /// What it is called in commands.
    pub fn target(&self) -> Target {
        if self.element.is_multiple_of(2) { Target::Straight(self.element / 2) } else { Target::Bend(self.element / 2) }
    }
}

impl Hit {
    /// What it is called in commands; `None` for a tube that is not worked on.
    pub fn target(&self) -> Option<Target> {
        match self {
            Self::Knob(knob) => Some(knob.target),
            Self::Tube(hit) => Some(hit.target()),
            Self::Other(..) => None,
        }
    }
}

/// What lies below a place in the window: a handle before the tubes, and of several handles the one whose
/// middle is nearest to the pointer; of the tubes the nearest.
pub fn pick(view: &View, at: Vec2, part: &Part, solved: &Solved, others: &[Bystander]) -> Option<Hit> {
    let reached = knobs(part, solved).into_iter().filter_map(|knob| {
        let pixels = view.project(&knob.at)?.distance(at);
        (pixels <= REACH_PIXELS).then_some((pixels, knob))
    });
    if let Some((_, knob)) = reached.min_by(|a, b| a.0.total_cmp(&b.0)) {
        return Some(Hit::Knob(knob));
    }
    let ray = view.ray(at);
    let met = |part: &Part, solved: &Solved| pick_tube(&ray, &solved.centreline, part.tube.od.mm() / 2.0);
    let own = met(part, solved).map(|hit| (hit.distance_mm, Hit::Tube(hit)));
    let others = others.iter().filter_map(|other| {
        let hit = met(other.part, other.solved)?;
        Some((hit.distance_mm, Hit::Other(other.id, hit)))
    });
    // Where two are met at once, such as a copy that lies in its original, the one that is worked on is meant.
    own.into_iter().chain(others).min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, hit)| hit)
}
