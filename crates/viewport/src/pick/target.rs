//! What of handles and tubes the pointer means.

use bevy::math::Vec2;
use elbowroom_bending::{Part, Solved, TubeId};
use elbowroom_workbench::Target;

use super::knobs::Knob;
use super::{TubeHit, pick_tube};
use crate::camera::View;

/// How near to a handle's middle the pointer must be to mean it, logical pixels: a little more than is drawn.
const REACH_PIXELS: f32 = 11.0;

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

/// What lies below a place in the window: one of the handles that are shown before the tubes, and of several handles
/// the one whose middle is nearest to the pointer; of the tubes the nearest.
pub fn pick(view: &View, at: Vec2, shown: &[Knob], part: &Part, solved: &Solved, others: &[Bystander]) -> Option<Hit> {
    let reached = shown.iter().filter_map(|knob| {
        let pixels = view.project(&knob.at)?.distance(at);
        (pixels <= REACH_PIXELS).then_some((pixels, *knob))
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
