//! Finds what a dragged handle hangs on, so that its legs and turns can snap to round figures.

use elbowroom_bending::{Part, Path, Solved};
use elbowroom_geometry::{HandleId, Point3};
use elbowroom_workbench::Target;

use super::{Knob, Neighbours};

/// The vertices beside a handle. In vertex form every vertex counts, those that carry no bend among them.
pub fn neighbours(part: &Part, solved: &Solved, knobs: &[Knob], knob: &Knob) -> Neighbours {
    if let Path::Vertices(path) = &part.path
        && let Some(vertex) = vertex_of(knob.target, path.points().len(), solved)
    {
        let at = |vertex: Option<usize>| path.points().get(vertex?).copied();
        let (before, after) = (at(vertex.checked_sub(1)), at(Some(vertex + 1)));
        return match (before, after) {
            (None, corner) => Neighbours { beside: [corner, None], beyond: at(Some(vertex + 2)) },
            (corner, None) => Neighbours { beside: [corner, None], beyond: at(vertex.checked_sub(2)) },
            both => Neighbours { beside: [both.0, both.1], beyond: None },
        };
    }
    along_bends(knobs, knob)
}

/// The vertex that is dragged, where it is one.
fn vertex_of(target: Target, vertices: usize, solved: &Solved) -> Option<usize> {
    match target {
        Target::Vertex(vertex) => Some(vertex),
        Target::Handle(HandleId::Start) => Some(0),
        Target::Handle(HandleId::Finish) => vertices.checked_sub(1),
        Target::Handle(HandleId::Vertex(bend)) => solved.form.vertex_of_bend.get(bend).copied(),
        Target::Handle(HandleId::ArcStart(_) | HandleId::ArcEnd(_)) | Target::Straight(_) | Target::Bend(_) => None,
    }
}

/// The vertices beside a handle. Where a neighbouring bend has no vertex (a U-bend) its tangent points stand
/// for it; the tangent points themselves snap to the grid alone.
fn along_bends(knobs: &[Knob], knob: &Knob) -> Neighbours {
    let Target::Handle(handle) = knob.target else { return Neighbours::default() };
    let bends = knobs.iter().filter_map(|knob| bend_of(knob.target)).max().map_or(0, |last| last + 1);
    let at = |target: HandleId| knobs.iter().find(|knob| knob.target == Target::Handle(target)).map(|knob| knob.at);
    let before = |bend: usize| match bend.checked_sub(1) {
        Some(bend) => at(HandleId::Vertex(bend)).or(at(HandleId::ArcEnd(bend))),
        None => at(HandleId::Start),
    };
    let after = |bend: usize| {
        if bend + 1 < bends {
            at(HandleId::Vertex(bend + 1)).or(at(HandleId::ArcStart(bend + 1)))
        } else {
            at(HandleId::Finish)
        }
    };
    let end = |corner: Option<Point3<f64>>, beyond| Neighbours { beside: [corner, None], beyond };
    match handle {
        HandleId::Vertex(bend) => Neighbours { beside: [before(bend), after(bend)], beyond: None },
        HandleId::Start if bends == 0 => end(at(HandleId::Finish), None),
        HandleId::Finish if bends == 0 => end(at(HandleId::Start), None),
        HandleId::Start => match at(HandleId::Vertex(0)) {
            Some(corner) => end(Some(corner), after(0)),
            None => end(at(HandleId::ArcStart(0)), None),
        },
        HandleId::Finish => match at(HandleId::Vertex(bends - 1)) {
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
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::{solve, specimen};
    use elbowroom_geometry::{Length, VertexPath};

    use super::*;
    use crate::pick::knobs;

    fn knob(handle: HandleId, x: f64) -> Knob {
        Knob { target: Target::Handle(handle), at: Point3::new(x, 0.0, 0.0), slides_along: None }
    }

    #[test]
    fn ends_hang_on_a_corner_and_vertices_on_both_sides() {
        let knobs = [
            knob(HandleId::Start, 0.0),
            knob(HandleId::Vertex(0), 1.0),
            knob(HandleId::ArcStart(1), 2.0),
            knob(HandleId::ArcEnd(1), 3.0),
            knob(HandleId::Finish, 4.0),
        ];
        let point = |x: f64| Some(Point3::new(x, 0.0, 0.0));
        assert_eq!(along_bends(&knobs, &knobs[0]), Neighbours { beside: [point(1.0), None], beyond: point(2.0) });
        assert_eq!(along_bends(&knobs, &knobs[1]), Neighbours { beside: [point(0.0), point(2.0)], beyond: None });
        assert_eq!(along_bends(&knobs, &knobs[2]), Neighbours::default());
        assert_eq!(along_bends(&knobs, &knobs[4]), Neighbours { beside: [point(3.0), None], beyond: None });
    }

    #[test]
    fn a_vertex_without_a_bend_hangs_on_the_vertices_beside_it() {
        let points: Vec<_> =
            [[0.0, 0.0], [100.0, 0.0], [400.0, 0.0], [400.0, 500.0]].map(|[x, y]| Point3::new(x, y, 0.0)).to_vec();
        let clr = vec![Length::from_mm(specimen::CLR_MM); 2];
        let mut part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0)], 300.0).unwrap();
        part.path = Path::Vertices(VertexPath::new(points.clone(), clr).unwrap());
        let solved = solve(&part, &specimen::shop());
        let knobs = knobs(&part, &solved);
        let of = |target: Target| {
            let knob = knobs.iter().find(|knob| knob.target == target).unwrap();
            neighbours(&part, &solved, &knobs, knob)
        };
        let point = |vertex: usize| Some(points[vertex]);
        assert_eq!(of(Target::Vertex(1)), Neighbours { beside: [point(0), point(2)], beyond: None });
        let bend = of(Target::Handle(HandleId::Vertex(0)));
        assert_eq!(bend, Neighbours { beside: [point(1), point(3)], beyond: None });
        let lead = of(Target::Handle(HandleId::Start));
        assert_eq!(lead, Neighbours { beside: [point(1), None], beyond: point(2) });
        let tail = of(Target::Handle(HandleId::Finish));
        assert_eq!(tail, Neighbours { beside: [point(2), None], beyond: point(1) });
    }
}
