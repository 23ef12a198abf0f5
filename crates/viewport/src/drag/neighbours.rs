//! Finds what a dragged handle hangs on, so that its legs and turns can snap to round figures.

use elbowroom_geometry::{HandleId, Point3};
use elbowroom_workbench::Target;

use super::{Knob, Neighbours};

/// The vertices beside a handle. Where a neighbouring bend has no vertex (a U-bend) its tangent points stand
/// for it; the tangent points themselves snap to the grid alone.
pub fn neighbours(knobs: &[Knob], knob: &Knob) -> Neighbours {
    let Target::Handle(handle) = knob.target else { return Neighbours::default() };
    let bends = knobs.iter().filter_map(|knob| bend_of(knob.target)).max().map_or(0, |last| last + 1);
    let at = |target: HandleId| knobs.iter().find(|knob| knob.target == Target::Handle(target)).map(|knob| knob.at);
    let before = |bend: usize| match bend.checked_sub(1) {
        Some(bend) => at(HandleId::Vertex(bend)).or(at(HandleId::ArcEnd(bend))),
        None => at(HandleId::LeadEnd),
    };
    let after = |bend: usize| {
        if bend + 1 < bends {
            at(HandleId::Vertex(bend + 1)).or(at(HandleId::ArcStart(bend + 1)))
        } else {
            at(HandleId::TailEnd)
        }
    };
    let end = |corner: Option<Point3<f64>>, beyond| Neighbours { beside: [corner, None], beyond };
    match handle {
        HandleId::Vertex(bend) => Neighbours { beside: [before(bend), after(bend)], beyond: None },
        HandleId::LeadEnd if bends == 0 => end(at(HandleId::TailEnd), None),
        HandleId::TailEnd if bends == 0 => end(at(HandleId::LeadEnd), None),
        HandleId::LeadEnd => match at(HandleId::Vertex(0)) {
            Some(corner) => end(Some(corner), after(0)),
            None => end(at(HandleId::ArcStart(0)), None),
        },
        HandleId::TailEnd => match at(HandleId::Vertex(bends - 1)) {
            Some(corner) => end(Some(corner), before(bends - 1)),
            None => end(at(HandleId::ArcEnd(bends - 1)), None),
        },
        HandleId::ArcStart(_) | HandleId::ArcEnd(_) => Neighbours::default(),
    }
}

/// The bend that a handle belongs to.
fn bend_of(target: Target) -> Option<usize> {
    match target {
        Target::Handle(handle) => handle.bend(),
        Target::Straight(_) | Target::Bend(_) | Target::Vertex(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn knob(handle: HandleId, x: f64) -> Knob {
        Knob { target: Target::Handle(handle), at: Point3::new(x, 0.0, 0.0), slides_along: None }
    }

    #[test]
    fn ends_hang_on_a_corner_and_vertices_on_both_sides() {
        let knobs = [
            knob(HandleId::LeadEnd, 0.0),
            knob(HandleId::Vertex(0), 1.0),
            knob(HandleId::ArcStart(1), 2.0),
            knob(HandleId::ArcEnd(1), 3.0),
            knob(HandleId::TailEnd, 4.0),
        ];
        let point = |x: f64| Some(Point3::new(x, 0.0, 0.0));
        assert_eq!(neighbours(&knobs, &knobs[0]), Neighbours { beside: [point(1.0), None], beyond: point(2.0) });
        assert_eq!(neighbours(&knobs, &knobs[1]), Neighbours { beside: [point(0.0), point(2.0)], beyond: None });
        assert_eq!(neighbours(&knobs, &knobs[2]), Neighbours::default());
        assert_eq!(neighbours(&knobs, &knobs[4]), Neighbours { beside: [point(3.0), None], beyond: None });
    }
}
