//! What is held stays where it is, whatever else is edited.
#![allow(clippy::unwrap_used, clippy::panic)]

use approx::assert_abs_diff_eq;
use elbowroom_bending::specimen::{CLR_MM, part, part_along, row, row_at};
use elbowroom_bending::{Edit, End, Hold, NodeId, Part, Path};
use elbowroom_geometry::{Angle, Centreline, Frame, HandleId, Length, PathPlace, Point3, VertexPath};
use proptest::prelude::*;

/// Legs along x, y, x and up.
fn pipe() -> Part {
    part(vec![row(250.0, 0.0, 90.0), row(300.0, 180.0, 90.0), row(280.0, 90.0, 90.0)], 260.0).unwrap()
}

/// The same held as vertices.
fn drawn(part: &Part) -> Part {
    Edit::ChangeForm.applied_to(part).unwrap()
}

fn hold(part: &Part, places: &[(NodeId, Hold)]) -> Part {
    places.iter().fold(part.clone(), |part, (id, hold)| Edit::Hold(*id, *hold).applied_to(&part).unwrap())
}

/// Both ends with their directions.
fn between_ends(part: &Part) -> Part {
    let ids = part.numbering();
    hold(part, &[(ids.start(), Hold::BOTH), (ids.finish(), Hold::BOTH)])
}

fn end(part: &Part) -> Frame {
    Centreline::of(&part.path.bend_form().path).end()
}

fn start(part: &Part) -> Frame {
    *part.path.bend_form().path.start()
}

fn straights(part: &Part) -> Vec<f64> {
    let path = part.path.bend_form().path;
    path.rows().iter().map(|row| row.straight.mm()).chain([path.tail().mm()]).collect()
}

fn angles(part: &Part) -> Vec<f64> {
    part.path.bend_form().path.rows().iter().map(|row| row.angle.degrees()).collect()
}

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn degrees(value: f64) -> Angle {
    Angle::from_degrees(value)
}

#[track_caller]
fn assert_ends_stay(before: &Part, after: &Part) {
    assert_abs_diff_eq!(end(after).origin, end(before).origin, epsilon = 1e-6);
    assert_abs_diff_eq!(end(after).tangent, end(before).tangent, epsilon = 1e-9);
    assert_abs_diff_eq!(start(after).origin, start(before).origin, epsilon = 1e-6);
    assert_abs_diff_eq!(start(after).tangent, start(before).tangent, epsilon = 1e-9);
}

// By hand: what the first leg along x gains the other leg along x gives up, and nothing else changes.
#[test]
fn a_typed_straight_is_paid_for_by_the_parallel_one() {
    let before = between_ends(&pipe());
    let after = Edit::SetStraight(before.straight_id(0), mm(270.0)).applied_to(&before).unwrap();
    for (is, wanted) in straights(&after).into_iter().zip([270.0, 300.0, 260.0, 260.0]) {
        assert_abs_diff_eq!(is, wanted, epsilon = 1e-6);
    }
    for angle in angles(&after) {
        assert_abs_diff_eq!(angle, 90.0, epsilon = 1e-7);
    }
    assert_ends_stay(&before, &after);
    assert_eq!(after.keep, before.keep);
}

#[test]
fn in_a_drawing_a_typed_straight_moves_one_free_vertex() {
    let before = between_ends(&drawn(&pipe()));
    let points = |part: &Part| match &part.path {
        Path::Vertices(path) => path.points().to_vec(),
        Path::Bends(_) => panic!("held in rows"),
    };
    for (straight, moves) in [(0, 1), (1, 2), (2, 3), (3, 3)] {
        let wanted = mm(straights(&before)[straight] + 10.0);
        let after = Edit::SetStraight(before.straight_id(straight), wanted).applied_to(&before);
        // The last leg runs into a finish whose direction is held, and so does its last vertex.
        let after = after.unwrap();
        assert_abs_diff_eq!(straights(&after)[straight], wanted.mm(), epsilon = 1e-6);
        assert_ends_stay(&before, &after);
        if straight < 2 {
            let (is, was) = (points(&after), points(&before));
            assert!((0..5).all(|vertex| (is[vertex] != was[vertex]) == (vertex == moves)), "{is:?}");
        }
    }
}

#[test]
fn a_typed_angle_stays_as_typed_between_held_ends() {
    for part in [pipe(), drawn(&pipe())] {
        let before = between_ends(&part);
        let after = Edit::SetAngle(before.bend_id(1), degrees(80.0)).applied_to(&before).unwrap();
        assert_abs_diff_eq!(angles(&after)[1], 80.0, epsilon = 1e-7);
        assert_ends_stay(&before, &after);
        let after = Edit::SetRotation(before.bend_id(2), degrees(100.0)).applied_to(&before).unwrap();
        let rotation = after.path.bend_form().path.rows()[2].rotation;
        assert_abs_diff_eq!(rotation.degrees(), 100.0, epsilon = 1e-7);
        assert_ends_stay(&before, &after);
    }
}

#[test]
fn a_radius_is_paid_for_by_the_straights_beside_it() {
    let before = between_ends(&pipe());
    let after = Edit::SetClr(before.bend_id(1), mm(CLR_MM + 20.0)).applied_to(&before).unwrap();
    for (is, wanted) in straights(&after).into_iter().zip([250.0, 280.0, 260.0, 260.0]) {
        assert_abs_diff_eq!(is, wanted, epsilon = 1e-6);
    }
    assert_ends_stay(&before, &after);
}

#[test]
fn an_added_bend_stays_as_it_was_put_in() {
    let before = between_ends(&pipe());
    let new = row(60.0, 45.0, 20.0);
    let after = Edit::InsertRows(before.straight_id(1), vec![new]).applied_to(&before).unwrap();
    let rows = after.path.bend_form().path.rows().to_vec();
    assert_eq!((rows.len(), rows[1].straight, rows[1].angle), (4, new.straight, new.angle));
    assert_abs_diff_eq!(rows[1].rotation.degrees(), 45.0, epsilon = 1e-9);
    assert_ends_stay(&before, &after);
}

#[test]
fn with_the_finish_held_alone_the_rest_swings() {
    let before = hold(&pipe(), &[(pipe().numbering().finish(), Hold::BOTH)]);
    let after = Edit::SetAngle(before.bend_id(1), degrees(60.0)).applied_to(&before).unwrap();
    assert_abs_diff_eq!(end(&after).origin, end(&before).origin, epsilon = 1e-6);
    assert_abs_diff_eq!(end(&after).tangent, end(&before).tangent, epsilon = 1e-9);
    assert_eq!(straights(&after), straights(&before), "no row but the typed one changes");
    assert!((start(&after).origin - start(&before).origin).norm() > 10.0);
}

#[test]
fn a_direction_can_be_held_without_its_place() {
    let ids = pipe().numbering();
    let before = hold(&pipe(), &[(ids.start(), Hold::BOTH), (ids.finish(), Hold::DIRECTION)]);
    let after = Edit::SetRotation(before.bend_id(2), degrees(100.0)).applied_to(&before).unwrap();
    assert_abs_diff_eq!(end(&after).tangent, end(&before).tangent, epsilon = 1e-9);
    assert_abs_diff_eq!(start(&after).tangent, start(&before).tangent, epsilon = 1e-9);
    assert!((end(&after).origin - end(&before).origin).norm() > 1.0, "its place is free");
    let rotation = after.path.bend_form().path.rows()[2].rotation;
    assert_abs_diff_eq!(rotation.degrees(), 100.0, epsilon = 1e-7);
}

#[test]
fn a_held_vertex_parts_what_moves_from_what_stays() {
    let vertex = |part: &Part, bend: usize| {
        let pinned = part.path.bend_form().path.pinned_as_it_is(PathPlace::Bend(bend)).unwrap();
        (pinned.point.unwrap(), pinned.into.unwrap(), pinned.out_of.unwrap())
    };
    for part in [pipe(), drawn(&pipe())] {
        let before = between_ends(&hold(&part, &[(part.bend_id(1), Hold::BOTH)]));
        // Ahead of it there is one bend alone, and nothing that could give way.
        let refused = Edit::SetAngle(before.bend_id(0), degrees(80.0)).applied_to(&before).unwrap_err();
        assert!(refused.to_string().starts_with("bend 2"), "{refused}");
        let before = hold(&before, &[(part.numbering().start(), Hold::default())]);
        let after = Edit::SetAngle(before.bend_id(0), degrees(80.0)).applied_to(&before).unwrap();
        let ((is, into, out), (was, was_into, was_out)) = (vertex(&after, 1), vertex(&before, 1));
        assert_abs_diff_eq!(is, was, epsilon = 1e-6);
        assert_abs_diff_eq!(into, was_into, epsilon = 1e-9);
        assert_abs_diff_eq!(out, was_out, epsilon = 1e-9);
        assert_abs_diff_eq!(end(&after).origin, end(&before).origin, epsilon = 1e-6);
    }
}

#[test]
fn what_is_held_cannot_be_moved_by_hand() {
    let before = between_ends(&pipe());
    let ids = before.numbering();
    let away = Point3::new(9.0, 9.0, 9.0);
    let moves = [
        (Edit::MoveHandle(HandleId::Start, away), "the start is held; free it first"),
        (Edit::MoveVertex(ids.finish(), away), "the finish is held; free it first"),
        (Edit::SetStart(away), "the start and the finish is held; free it first"),
        (Edit::RemoveVertices(vec![ids.start()]), "the start is held; free it first"),
    ];
    for (edit, wanted) in moves {
        assert_eq!(edit.applied_to(&before).unwrap_err().to_string(), wanted, "{edit:?}");
    }
    let held = hold(&pipe(), &[(ids.bend(1), Hold::PLACE)]);
    for edit in [Edit::RemoveBends(vec![ids.bend(1)]), Edit::MoveHandle(HandleId::Vertex(ids.bend(1)), away)] {
        assert_eq!(edit.applied_to(&held).unwrap_err().to_string(), "bend 2 is held; free it first", "{edit:?}");
    }
}

#[test]
fn a_vertex_moved_by_hand_goes_where_it_was_put() {
    for part in [pipe(), drawn(&pipe())] {
        let before = between_ends(&part);
        let vertices = before.path.bend_form().path.to_vertex_form().unwrap();
        let to = vertices.points()[2] + elbowroom_geometry::Vector3::new(0.0, 0.0, 15.0);
        let after = Edit::MoveHandle(HandleId::Vertex(before.bend_id(1)), to).applied_to(&before).unwrap();
        let moved = after.path.bend_form().path.to_vertex_form().unwrap();
        assert_abs_diff_eq!(moved.points()[2], to, epsilon = 1e-6);
        assert_ends_stay(&before, &after);
    }
}

#[test]
fn what_gave_way_is_told() {
    let before = between_ends(&pipe());
    let edit = Edit::SetStraight(before.straight_id(0), mm(270.0));
    let told = edit.gave_way(&before, &edit.applied_to(&before).unwrap());
    let wanted = "Straight 3 is 260.0 mm now (280.0 mm before), so that the start and the finish stay.";
    assert_eq!(told.as_deref(), Some(wanted));
    let edit = Edit::SetAngle(before.bend_id(1), degrees(80.0));
    let told = edit.gave_way(&before, &edit.applied_to(&before).unwrap()).unwrap();
    // The last leg stands square on the plane of bend 2, and the straights about it do.
    assert!(told.starts_with("Straight 2 is 236.0 mm now") && !told.contains("bend"), "{told}");
    let edit = Edit::SetRotation(before.bend_id(2), degrees(100.0));
    let told = edit.gave_way(&before, &edit.applied_to(&before).unwrap()).unwrap();
    assert!(told.contains("figures more changed, so that") && !told.contains("rotation before bend 3"), "{told}");
    let drawing = between_ends(&drawn(&pipe()));
    let edit = Edit::SetStraight(drawing.straight_id(1), mm(310.0));
    let told = edit.gave_way(&drawing, &edit.applied_to(&drawing).unwrap()).unwrap();
    assert!(told.starts_with("Bend 2 moved by ") && told.ends_with("so that the start and the finish stay."), "{told}");
    // Where nothing is held nothing is told, nor where nothing gave way.
    let free = pipe();
    let edit = Edit::SetStraight(free.straight_id(0), mm(270.0));
    assert_eq!(edit.gave_way(&free, &edit.applied_to(&free).unwrap()), None);
    let swung = Edit::KeepSide(End::Finish).applied_to(&free).unwrap();
    let edit = Edit::SetAngle(swung.bend_id(1), degrees(60.0));
    assert_eq!(edit.gave_way(&swung, &edit.applied_to(&swung).unwrap()), None, "a side that stays holds nothing");
    let rename = Edit::Rename("Other".into());
    assert_eq!(rename.gave_way(&before, &rename.applied_to(&before).unwrap()), None);
    let alone = hold(&free, &[(free.numbering().finish(), Hold::BOTH)]);
    let edit = Edit::SetAngle(alone.bend_id(0), degrees(60.0));
    let told = edit.gave_way(&alone, &edit.applied_to(&alone).unwrap()).unwrap();
    assert!(
        told.starts_with("The start lies ") && told.ends_with(" from where it was, so that the finish stays."),
        "{told}"
    );
}

#[test]
fn letting_go_lets_go() {
    let before = between_ends(&pipe());
    let finish = before.numbering().finish();
    let free = Edit::Hold(finish, Hold::default()).applied_to(&before).unwrap();
    assert_eq!(free.keep.held(), [(free.numbering().start(), Hold::BOTH)]);
    let after = Edit::SetStraight(free.straight_id(0), mm(270.0)).applied_to(&free).unwrap();
    assert_eq!(straights(&after), [270.0, 300.0, 280.0, 260.0]);
    assert!(Edit::FreeAll.applied_to(&before).unwrap().keep.held().is_empty());
    assert!(Edit::Hold(NodeId::new(99), Hold::BOTH).applied_to(&before).is_err());
}

#[test]
fn swapping_ends_and_forms_keeps_what_is_held() {
    let before = between_ends(&pipe());
    let swapped = Edit::SwapEnds.applied_to(&before).unwrap();
    assert_eq!(swapped.keep.of(swapped.numbering().start()), Hold::BOTH);
    let after = Edit::SetStraight(swapped.straight_id(3), mm(270.0)).applied_to(&swapped).unwrap();
    assert_ends_stay(&swapped, &after);
    assert_eq!(drawn(&before).keep, before.keep);
}

#[test]
fn towards_the_finish_stays_where_one_chooses_so() {
    for part in [pipe(), drawn(&pipe())] {
        let before = Edit::KeepSide(End::Finish).applied_to(&part).unwrap();
        for edit in [
            Edit::SetAngle(before.bend_id(1), degrees(60.0)),
            Edit::SetRotation(before.bend_id(1), degrees(30.0)),
            Edit::InsertRows(before.straight_id(1), vec![row(60.0, 45.0, 20.0)]),
        ] {
            let after = edit.applied_to(&before).unwrap();
            assert_abs_diff_eq!(end(&after).origin, end(&before).origin, epsilon = 1e-6);
            assert_abs_diff_eq!(end(&after).tangent, end(&before).tangent, epsilon = 1e-9);
            let vertices = |part: &Part| part.path.bend_form().path.to_vertex_form().unwrap();
            let (is, was) = (vertices(&after), vertices(&before));
            let last = |path: &VertexPath| path.points()[path.points().len() - 2];
            assert_abs_diff_eq!(last(&is), last(&was), epsilon = 1e-6);
            assert!((is.points()[0] - was.points()[0]).norm() > 1.0, "{edit:?}");
        }
        let again = Edit::KeepSide(End::Start).applied_to(&before).unwrap();
        let after = Edit::SetAngle(again.bend_id(1), degrees(60.0)).applied_to(&again).unwrap();
        assert_abs_diff_eq!(start(&after).origin, start(&before).origin, epsilon = 1e-12);
    }
}

#[test]
fn a_held_vertex_without_a_bend_stays_where_its_leg_can_stay() {
    let points = [[0.0, 0.0, 0.0], [200.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 400.0, 0.0], [800.0, 400.0, 0.0]];
    let points = points.map(|[x, y, z]| Point3::new(x, y, z)).to_vec();
    let part = part_along(Path::Vertices(VertexPath::new(points, vec![mm(CLR_MM); 3]).unwrap()));
    let before = hold(&part, &[(part.vertex_id(1), Hold::BOTH)]);
    let after = Edit::SetAngle(before.bend_id(1), degrees(60.0)).applied_to(&before).unwrap();
    let Path::Vertices(path) = &after.path else { panic!("{:?}", after.path) };
    assert_abs_diff_eq!(path.points()[1], Point3::new(200.0, 0.0, 0.0), epsilon = 1e-6);
}

/// Rows as people draw them.
fn any_pipe() -> impl Strategy<Value = Part> {
    let rotation = prop_oneof![Just(0.0), Just(90.0), Just(-90.0), Just(180.0), -180.0..180.0f64];
    let angle = prop_oneof![Just(30.0), Just(45.0), Just(90.0), 10.0..120.0f64];
    let rows = proptest::collection::vec((100.0..400.0f64, rotation, angle), 4..8);
    (rows, any::<bool>()).prop_map(|(rows, as_vertices)| {
        let rows = rows.into_iter().map(|(straight, rotation, angle)| row_at(straight, rotation, angle, CLR_MM));
        let typed = part(rows.collect(), 200.0).unwrap();
        if as_vertices { drawn(&typed) } else { typed }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// Whatever is edited between held ends, it is refused or the ends stay and what was typed is as typed.
    #[test]
    fn held_ends_stay(pipe in any_pipe(), which in 0usize..5, at in 0usize..4, by in -12.0..12.0f64) {
        let before = between_ends(&pipe);
        let path = before.path.bend_form().path;
        let row_there = path.rows()[at];
        let edit = match which {
            0 => Edit::SetStraight(before.straight_id(at), row_there.straight + mm(by)),
            1 => Edit::SetAngle(before.bend_id(at), row_there.angle + degrees(by / 2.0)),
            2 => Edit::SetRotation(before.bend_id(at), row_there.rotation + degrees(by)),
            3 => Edit::SetClr(before.bend_id(at), row_there.clr + mm(by)),
            _ => Edit::InsertRows(before.straight_id(at), vec![row(50.0, 30.0, 5.0)]),
        };
        if let Ok(after) = edit.applied_to(&before) {
            assert_ends_stay(&before, &after);
            let is = after.path.bend_form().path.rows()[at];
            match which {
                0 => prop_assert!((is.straight - row_there.straight - mm(by)).mm().abs() < 1e-6),
                1 => prop_assert!((is.angle - row_there.angle - degrees(by / 2.0)).radians().abs() < 1e-8),
                3 => prop_assert_eq!(is.clr, row_there.clr + mm(by)),
                4 => prop_assert!((is.straight.mm() - 50.0).abs() < 1e-6),
                _ => {}
            }
        }
    }
}
/// Of the ways to make room for an added bend one would straighten out the bend before it: that is none.
#[test]
fn no_bend_is_straightened_out_to_give_way() {
    let points = [
        [0.0, 0.0, 0.0],
        [176.2, 0.0, 0.0],
        [176.2, 481.0865891169606, 0.0],
        [29.28932188134526, 627.9972672356154, 0.0],
        [-149.18442969013935, 449.52351566413085, 0.0],
        [-327.6581812616239, 627.9972672356154, 0.0],
        [-327.65818126162395, 627.9972672356154, -276.2],
    ];
    let path = VertexPath::new(points.map(Point3::from).to_vec(), vec![mm(CLR_MM); 5]).unwrap();
    let before = between_ends(&part_along(Path::Vertices(path)));
    let new = row(50.0, 30.0, 5.0);
    if let Ok(after) = Edit::InsertRows(before.straight_id(2), vec![new]).applied_to(&before) {
        assert_ends_stay(&before, &after);
        let rows = after.path.bend_form().path.rows().to_vec();
        assert_eq!(rows.len(), 6, "every bend is there still");
        assert_abs_diff_eq!(rows[2].straight.mm(), 50.0, epsilon = 1e-6);
    }
}
