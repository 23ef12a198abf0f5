//! Ids of places in the path: they survive every edit that leaves the place there, and no new place takes one over.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::HashSet;

use elbowroom_bending::specimen::{part, part_along, row_at};
use elbowroom_bending::{Edit, EditRefusal, NodeId, Part, Path};
use elbowroom_geometry::{Angle, BendRow, HandleId, Length, Point3, VertexPath};
use proptest::prelude::*;

const CLR: Length = Length::from_mm(76.2);

/// Four bends of different angles, 10° to 40°, on straights of 200 mm.
fn four(vertices: bool) -> Part {
    let rows = [10.0, 20.0, 30.0, 40.0].map(|angle| row_at(200.0, 15.0, angle, 76.2)).to_vec();
    let part = part(rows, 200.0).unwrap();
    if vertices { Edit::ChangeForm.applied_to(&part).unwrap() } else { part }
}

/// The angle of the bend of an id, to a tenth of a degree; `None` where it is gone.
fn angle(part: &Part, id: NodeId) -> Option<i64> {
    let index = part.numbering().bend_at(id)?;
    Some((part.path.bend_form().path.rows()[index].angle.degrees() * 10.0).round() as i64)
}

fn bends(part: &Part) -> Vec<NodeId> {
    let numbering = part.numbering();
    (0..numbering.bends()).map(|bend| numbering.bend(bend)).collect()
}

#[test]
fn a_bend_stays_who_it_is_through_rows_put_in_before_it() {
    for vertices in [false, true] {
        let before = four(vertices);
        let ids = bends(&before);
        let new = vec![row_at(60.0, 0.0, 5.0, 76.2), row_at(60.0, 0.0, 6.0, 76.2)];
        let after = Edit::InsertRows(ids[1], new).applied_to(&before).unwrap();
        assert_eq!(ids.iter().map(|id| angle(&after, *id)).collect::<Vec<_>>(), [100, 200, 300, 400].map(Some));
        // An edit made against the state before means the same bend now.
        let turned = Edit::SetAngle(ids[2], Angle::from_degrees(90.0)).applied_to(&after).unwrap();
        assert_eq!(
            bends(&turned).iter().map(|id| angle(&turned, *id).unwrap()).collect::<Vec<_>>(),
            [100, 50, 60, 200, 900, 400]
        );
        let straight = Edit::SetStraight(ids[3], Length::from_mm(321.0)).applied_to(&after).unwrap();
        assert!((straight.path.bend_form().path.rows()[5].straight.mm() - 321.0).abs() < 1e-9);
    }
}

#[test]
fn removal_drops_one_id_and_a_later_insertion_takes_another() {
    for vertices in [false, true] {
        let before = four(vertices);
        let ids = bends(&before);
        let without = Edit::RemoveBends(vec![ids[1]]).applied_to(&before).unwrap();
        assert_eq!(bends(&without), [ids[0], ids[2], ids[3]]);
        let refusal = Edit::SetClr(ids[1], CLR).applied_to(&without).unwrap_err();
        assert_eq!(refusal, EditRefusal::NoSuch { what: "such bend".into(), has: "3 bends".into() });
        let again = Edit::InsertRows(ids[2], vec![row_at(60.0, 0.0, 7.0, 76.2)]).applied_to(&without).unwrap();
        assert!(!before.numbering().ids().contains(&bends(&again)[1]));
    }
}

#[test]
fn turning_round_reverses_the_ids_and_replaced_rows_keep_theirs() {
    for vertices in [false, true] {
        let before = four(vertices);
        let mut ids = before.numbering().ids().to_vec();
        let turned = Edit::SwapEnds.applied_to(&before).unwrap();
        ids.reverse();
        assert_eq!(turned.numbering().ids(), ids);
        let rows: Vec<BendRow> = (0..3).map(|_| row_at(100.0, 0.0, 12.0, 76.2)).collect();
        let before_ids = bends(&before);
        let after = Edit::ReplaceRows(before_ids[2], rows).applied_to(&before).unwrap();
        assert_eq!(bends(&after)[..4], before_ids);
        assert_eq!((bends(&after).len(), angle(&after, before_ids[3])), (5, Some(120)));
        assert_eq!(after.numbering().finish(), before.numbering().finish());
    }
}

#[test]
fn a_change_of_form_maps_vertices_to_bends_and_back() {
    let points = [[0., 0., 0.], [300., 0., 0.], [600., 0., 0.], [600., 300., 0.], [600., 300., 300.]].map(Point3::from);
    let path = VertexPath::new(points.to_vec(), vec![CLR; 3]).unwrap();
    let drawn = part_along(Path::Vertices(path));
    let ids = drawn.numbering().ids().to_vec();
    let rows = Edit::ChangeForm.applied_to(&drawn).unwrap();
    // Vertex 2 lies on a line and carries no bend, so no row is it.
    assert_eq!(rows.numbering().ids(), [ids[0], ids[2], ids[3], ids[4]]);
    let back = Edit::ChangeForm.applied_to(&rows).unwrap();
    assert_eq!(back.numbering().ids(), [ids[0], ids[2], ids[3], ids[4]]);
    // An angle that no vertex holds turns the path into rows by itself.
    let bent = Edit::SetAngle(ids[2], Angle::HALF_TURN).applied_to(&drawn).unwrap();
    assert!(matches!(bent.path, Path::Bends(_)));
    assert_eq!((angle(&bent, ids[2]), bends(&bent)), (Some(1800), vec![ids[2], ids[3]]));
}

/// In vertex form a straight may hold several legs: the vertex goes into the one nearest to it.
#[test]
fn a_vertex_goes_into_the_nearest_leg() {
    let points = [[0., 0., 0.], [100., 0., 0.], [500., 0., 0.], [500., 300., 0.]].map(Point3::from);
    let drawn = part_along(Path::Vertices(VertexPath::new(points.to_vec(), vec![CLR; 2]).unwrap()));
    let ids = drawn.numbering().ids().to_vec();
    for (x, place) in [(40.0, 1), (300.0, 2)] {
        let at = Point3::new(x, 20.0, 0.0);
        let after = Edit::InsertVertex(drawn.straight_id(0), at, CLR).applied_to(&drawn).unwrap();
        let Path::Vertices(path) = &after.path else { panic!("it was drawn by vertices") };
        assert_eq!(path.points()[place], at);
        let new = after.numbering().ids()[place];
        assert_eq!(after.numbering().ids().iter().filter(|id| **id != new).copied().collect::<Vec<_>>(), ids);
    }
}

#[test]
fn handles_go_by_the_id_of_their_bend() {
    let before = four(true);
    let id = before.bend_id(2);
    let after = Edit::RemoveBends(vec![before.bend_id(0)]).applied_to(&before).unwrap();
    let to = Point3::new(500.0, 100.0, 50.0);
    let moved = Edit::MoveHandle(HandleId::Vertex(id), to).applied_to(&after).unwrap();
    let Path::Vertices(path) = &moved.path else { panic!("it is held in vertices") };
    assert_eq!(path.points()[2], to);
}

fn edit() -> impl Strategy<Value = (u8, usize, f64)> {
    (0..10_u8, 0..6_usize, 5.0..160.0)
}

fn made((kind, index, value): (u8, usize, f64), part: &Part) -> Edit {
    let ids = part.numbering();
    let (bend, straight) = (ids.bend(index), ids.straight(index));
    let at = Point3::new(value * 4.0, value, index as f64 * 30.0);
    match kind {
        0 => Edit::SetAngle(bend, Angle::from_degrees(value)),
        1 => Edit::SetStraight(straight, Length::from_mm(value + 100.0)),
        2 => Edit::InsertRows(straight, vec![row_at(value, value, value, 76.2)]),
        3 => Edit::ReplaceRows(straight, vec![row_at(value, 0.0, value, 76.2), row_at(value, 30.0, 45.0, 76.2)]),
        4 => Edit::RemoveBends(vec![bend]),
        5 => Edit::SwapEnds,
        6 => Edit::ChangeForm,
        7 => Edit::InsertVertex(straight, at, CLR),
        8 => Edit::MoveHandle(HandleId::Vertex(bend), at),
        _ => Edit::RemoveVertices(vec![ids.vertex(index)]),
    }
}

proptest! {
    /// Through any edits every place has one id and every id one place; what was once gone never comes back, and a
    /// bend that an edit doesn't name keeps its radius and so is the same bend.
    #[test]
    fn ids_are_one_to_one_and_never_used_again(vertices in any::<bool>(), edits in prop::collection::vec(edit(), 0..12)) {
        let mut now = four(vertices);
        let mut gone: HashSet<NodeId> = HashSet::new();
        for edit in edits {
            let Ok(after) = made(edit, &now).applied_to(&now) else { continue };
            let (was, is) = (now.numbering(), after.numbering());
            let unique: HashSet<NodeId> = is.ids().iter().copied().collect();
            let places = match &after.path {
                Path::Vertices(path) => path.points().len(),
                Path::Bends(path) => path.rows().len() + 2,
            };
            prop_assert_eq!((is.ids().len(), unique.len()), (places, places));
            prop_assert!(gone.is_disjoint(&unique));
            gone.extend(was.ids().iter().filter(|id| !unique.contains(id)));
            for bend in 0..is.bends() {
                prop_assert_eq!(is.bend_at(is.bend(bend)), Some(bend));
                prop_assert_eq!(is.straight_at(is.straight(bend)), Some(bend));
            }
            // Order is kept, or reversed as a whole.
            let kept: Vec<NodeId> = was.ids().iter().copied().filter(|id| unique.contains(id)).collect();
            let mut there: Vec<NodeId> = is.ids().iter().copied().filter(|id| was.place(*id).is_some()).collect();
            if edit.0 == 5 {
                there.reverse();
            }
            prop_assert_eq!(kept, there);
            now = after;
        }
    }
}
