//! The vertices on which something hangs that can be selected.

use std::collections::BTreeSet;
use std::ops::RangeInclusive;

use elbowroom_bending::{NodeId, Part, Path, Solved};
use elbowroom_geometry::{HandleId, Point3};

use super::selection::Target;

/// The vertices of a part on which these hang, each once and in their order, by id and place (mm): a bend on its own, a
/// straight on those at both its ends and between them. None where a bend of the part has no vertex, such as a U-bend.
pub fn vertices_under(part: &Part, solved: &Solved, targets: &[Target]) -> Vec<(NodeId, Point3<f64>)> {
    if targets.is_empty() {
        return Vec::new();
    }
    let points = match &part.path {
        Path::Vertices(path) => path.points().to_vec(),
        Path::Bends(path) => path.to_vertex_form().map(|path| path.points().to_vec()).unwrap_or_default(),
    };
    let ids = part.nodes.ids(part.path.places());
    let Some(last) = points.len().checked_sub(1).filter(|_| ids.len() == points.len()) else { return Vec::new() };
    let places: BTreeSet<usize> = targets.iter().flat_map(|target| between(part, solved, *target, last)).collect();
    places.into_iter().filter_map(|place| Some((*ids.get(place)?, *points.get(place)?))).collect()
}

/// The vertices between which a target lies, or that it is, counted from 0.
fn between(part: &Part, solved: &Solved, target: Target, last: usize) -> RangeInclusive<usize> {
    let of_bend = |bend: usize| match &part.path {
        Path::Vertices(_) => solved.form.vertex_of_bend.get(bend).copied().unwrap_or(last),
        Path::Bends(_) => (bend + 1).min(last),
    };
    match target {
        Target::Handle(HandleId::Start) => 0..=0,
        Target::Handle(HandleId::Finish) => last..=last,
        Target::Vertex(vertex) => vertex..=vertex,
        Target::Bend(bend)
        | Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend) | HandleId::ArcEnd(bend)) => {
            of_bend(bend)..=of_bend(bend)
        }
        Target::Straight(straight) => straight.checked_sub(1).map_or(0, of_bend)..=of_bend(straight),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::{Edit, solve, specimen};

    use super::*;

    fn part() -> Part {
        let rows = vec![specimen::row(200.0, 0.0, 90.0), specimen::row(150.0, 45.0, 30.0)];
        specimen::part(rows, 250.0).unwrap()
    }

    fn under(part: &Part, targets: &[Target]) -> Vec<(NodeId, Point3<f64>)> {
        vertices_under(part, &solve(part, &specimen::shop()), targets)
    }

    fn numbers(part: &Part, targets: &[Target]) -> Vec<u32> {
        under(part, targets).into_iter().map(|(id, _)| id.number()).collect()
    }

    #[test]
    fn a_straight_hangs_on_the_vertices_at_both_its_ends_in_either_form() {
        let mut part = part();
        let ids = part.nodes.ids(4).into_iter().map(NodeId::number).collect::<Vec<_>>();
        let wanted = |places: &[usize]| places.iter().map(|place| ids[*place]).collect::<Vec<_>>();
        for _ in 0..2 {
            assert_eq!(numbers(&part, &[Target::Straight(0)]), wanted(&[0, 1]));
            assert_eq!(numbers(&part, &[Target::Straight(1)]), wanted(&[1, 2]));
            assert_eq!(numbers(&part, &[Target::Straight(2), Target::Bend(1)]), wanted(&[2, 3]), "each once");
            assert_eq!(numbers(&part, &[Target::Handle(HandleId::Finish), Target::Bend(0)]), wanted(&[1, 3]));
            assert_eq!(numbers(&part, &[]), wanted(&[]));
            part = Edit::ChangeForm.applied_to(&part).unwrap();
        }
    }

    #[test]
    fn a_vertex_on_the_line_goes_with_the_straight_that_it_lies_on() {
        let part = Edit::ChangeForm.applied_to(&part()).unwrap();
        let ends = under(&part, &[Target::Straight(0)]);
        let at = ends[0].1 + (ends[1].1 - ends[0].1) * 0.4;
        let straight = part.numbering().straight(0);
        let clr = specimen::row(0.0, 0.0, 0.0).clr;
        let part = Edit::InsertVertex(straight, at, clr).applied_to(&part).unwrap();
        assert_eq!(under(&part, &[Target::Straight(0)]).len(), 3);
        assert_eq!(under(&part, &[Target::Vertex(1)])[0].1, at);
    }

    #[test]
    fn a_half_turn_has_no_vertex_that_could_move() {
        let part = specimen::part(vec![specimen::row(200.0, 0.0, 180.0)], 200.0).unwrap();
        assert_eq!(under(&part, &[Target::Bend(0)]), []);
    }
}
