//! Edits: what they do to the path, in which form it stays, what they refuse.
#![allow(clippy::unwrap_used, clippy::panic)]

use approx::assert_abs_diff_eq;
use elbowroom_bending::specimen::{CLR_MM, part, part_along, row};
use elbowroom_bending::{Edit, EditRefusal, End, Part, Path};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, HandleId, Length, Point3, VertexPath};

fn drawn(points: &[[f64; 3]]) -> Part {
    let clr = vec![Length::from_mm(CLR_MM); points.len().saturating_sub(2)];
    let points = points.iter().map(|p| Point3::new(p[0], p[1], p[2])).collect();
    part_along(Path::Vertices(VertexPath::new(points, clr).unwrap()))
}

/// A stair of two bends with a vertex on the line of its first leg.
fn stair() -> Part {
    drawn(&[[0.0, 0.0, 0.0], [150.0, 0.0, 0.0], [400.0, 0.0, 0.0], [400.0, 400.0, 0.0], [800.0, 400.0, 100.0]])
}

fn typed() -> Part {
    part(vec![row(200.0, 0.0, 45.0), row(150.0, 90.0, 180.0), row(130.0, -30.0, 30.0)], 220.0).unwrap()
}

fn points(part: &Part) -> &[Point3<f64>] {
    let Path::Vertices(path) = &part.path else { panic!("held in bend form") };
    path.points()
}

fn bends(part: &Part) -> &BendPath {
    let Path::Bends(path) = &part.path else { panic!("held in vertex form") };
    path
}

#[test]
fn a_straight_in_vertices_moves_one_of_them_and_leaves_the_others() {
    for (side, moves) in [(End::Start, 3), (End::Finish, 2)] {
        let before = Edit::KeepSide(side).applied_to(&stair()).unwrap();
        for wanted_mm in [300.0, 150.0, 200.0] {
            let edit = Edit::SetStraight(before.straight_id(1), Length::from_mm(wanted_mm));
            let after = edit.applied_to(&before).unwrap();
            let form = after.path.bend_form().path;
            assert_abs_diff_eq!(form.rows()[1].straight.mm(), wanted_mm, epsilon = 1e-9);
            let (is, was) = (points(&after), points(&before));
            for vertex in [0, 2, 3, 4].into_iter().filter(|vertex| *vertex != moves) {
                assert_eq!(is[vertex], was[vertex], "vertex {vertex} stays");
            }
            assert!((is[moves] - was[moves]).norm() > 1.0);
            assert_eq!([is[moves].x, is[moves].z], [400.0, 0.0], "along the leg");
            // What lies on the leg before goes along with it and stays on it.
            assert_eq!(form.rows().len(), before.path.bend_form().path.rows().len());
        }
    }
}

#[test]
fn a_held_vertex_lets_the_other_one_move() {
    let before = Edit::Hold(stair().vertex_id(3), elbowroom_bending::Hold::PLACE).applied_to(&stair()).unwrap();
    let after = Edit::SetStraight(before.straight_id(1), Length::from_mm(300.0)).applied_to(&before).unwrap();
    assert_abs_diff_eq!(after.path.bend_form().path.rows()[1].straight.mm(), 300.0, epsilon = 1e-9);
    assert_eq!(points(&after)[3], points(&before)[3]);
    assert!((points(&after)[2] - points(&before)[2]).norm() > 1.0);
}

/// A sharp bend right behind: going on, its tangent would grow faster than the leg, whichever vertex moves.
#[test]
fn where_no_vertex_can_move_alone_what_lies_beyond_moves() {
    let before = drawn(&[[0.0, 0.0, 0.0], [200.0, 0.0, 0.0], [20.0, 60.0, 0.0], [20.0, 500.0, 0.0]]);
    let was = before.path.bend_form().path.rows()[1].straight;
    let wanted = was + Length::from_mm(400.0);
    let after = Edit::SetStraight(before.straight_id(1), wanted).applied_to(&before).unwrap();
    assert_abs_diff_eq!(after.path.bend_form().path.rows()[1].straight.mm(), wanted.mm(), epsilon = 1e-7);
}

#[test]
fn vertices_on_a_shrinking_straight_stay_on_it() {
    let after = Edit::SetStraight(stair().straight_id(0), Length::from_mm(10.0)).applied_to(&stair()).unwrap();
    let points = points(&after);
    assert_eq!(points.len(), 5);
    assert!(points[1].x > 0.0 && points[1].x < points[2].x);
    assert!(after.path.bend_form().problems.is_empty());
    assert_abs_diff_eq!(after.path.bend_form().path.rows()[0].straight.mm(), 10.0, epsilon = 1e-9);
}

/// One after the other, the first move folds the tube straight back upon itself, and the radius is lost on the way.
#[test]
fn vertices_moved_at_once_need_no_way_from_one_place_to_the_next() {
    let elbow = part(vec![row(300.0 - CLR_MM, 0.0, 90.0)], 300.0 - CLR_MM).unwrap();
    let ids = elbow.numbering();
    let to = [(ids.start(), Point3::new(300.0, 600.0, 0.0)), (ids.bend(0), Point3::new(0.0, 300.0, 40.0))];
    let radius = |part: &Part| bends(part).rows()[0].clr.mm();
    let in_turn = to.iter().try_fold(elbow.clone(), |part, (id, at)| Edit::MoveVertex(*id, *at).applied_to(&part));
    assert!(in_turn.is_err() || radius(&in_turn.unwrap()) < CLR_MM);
    let moved = Edit::MoveVertices(to.to_vec()).applied_to(&elbow).unwrap();
    let vertices = bends(&moved).to_vertex_form().unwrap();
    for (at, wanted) in vertices.points().iter().zip([to[0].1, to[1].1, Point3::new(300.0, 300.0, 0.0)]) {
        assert_abs_diff_eq!((at - wanted).norm(), 0.0, epsilon = 1e-9);
    }
    assert_eq!(radius(&moved), CLR_MM);
    assert_eq!(moved.numbering().bend(0), ids.bend(0), "the bend stays the bend that it was");
    let gone = Edit::MoveVertices(vec![to[0], (elbowroom_bending::NodeId::new(77), to[1].1)]).applied_to(&elbow);
    assert!(gone.unwrap_err().to_string().contains("3 vertices"));
}

#[test]
fn a_tail_can_be_set_in_both_forms() {
    for part in [stair(), typed()] {
        let last = part.path.bend_form().path.rows().len();
        let after = Edit::SetStraight(part.straight_id(last), Length::from_mm(77.0)).applied_to(&part).unwrap();
        assert_abs_diff_eq!(after.path.bend_form().path.tail().mm(), 77.0, epsilon = 1e-9);
    }
}

#[test]
fn rows_edited_in_a_drawing_come_back_as_a_drawing() {
    let after = Edit::SetAngle(stair().bend_id(0), Angle::from_degrees(60.0)).applied_to(&stair()).unwrap();
    assert!(matches!(after.path, Path::Vertices(_)));
    let form = after.path.bend_form().path;
    assert_abs_diff_eq!(form.rows()[0].angle.degrees(), 60.0, epsilon = 1e-9);
    assert_abs_diff_eq!(
        form.rows()[1].straight.mm(),
        stair().path.bend_form().path.rows()[1].straight.mm(),
        epsilon = 1e-9
    );
    let after = Edit::SetAngle(stair().bend_id(0), Angle::HALF_TURN).applied_to(&stair()).unwrap();
    assert_eq!(bends(&after).rows()[0].angle, Angle::HALF_TURN);
}

#[test]
fn rotations_in_a_drawing_turn_what_lies_beyond() {
    let before = drawn(&[
        [0.0, 0.0, 0.0],
        [400.0, 0.0, 0.0],
        [400.0, 200.0, 0.0],
        [400.0, 400.0, 0.0],
        [800.0, 400.0, 100.0],
        [900.0, 900.0, 300.0],
    ]);
    let was = before.path.bend_form().path;
    for (bend, degrees) in [(1, 35.0), (1, -120.0), (2, 180.0), (2, 0.0)] {
        let after = Edit::SetRotation(before.bend_id(bend), Angle::from_degrees(degrees)).applied_to(&before).unwrap();
        assert_eq!(points(&after)[..3], points(&before)[..3]);
        let is = after.path.bend_form().path;
        for (index, (a, b)) in was.rows().iter().zip(is.rows()).enumerate() {
            let wanted = if index == bend { degrees } else { a.rotation.degrees() };
            assert_abs_diff_eq!(b.rotation.degrees(), wanted, epsilon = 1e-7);
            assert_abs_diff_eq!(a.straight.mm(), b.straight.mm(), epsilon = 1e-7);
            assert_abs_diff_eq!(a.angle.degrees(), b.angle.degrees(), epsilon = 1e-7);
        }
    }
    // The first bend turns the part about its first leg, as it does in rows.
    let turn = |part: &Part| Edit::SetRotation(part.bend_id(0), Angle::from_degrees(30.0)).applied_to(part).unwrap();
    let in_rows = turn(&part_along(Path::Bends(was)));
    let ends = |part: &Part| {
        elbowroom_geometry::Centreline::of(&part.path.bend_form().path).elements().last().unwrap().end().origin
    };
    assert_abs_diff_eq!((ends(&in_rows) - ends(&turn(&before))).norm(), 0.0, epsilon = 1e-6);
}

#[test]
fn radii_keep_vertices_or_straights() {
    let after = Edit::SetClr(stair().bend_id(0), Length::from_mm(101.6)).applied_to(&stair()).unwrap();
    assert_eq!(points(&after), points(&stair()));
    assert_eq!(after.path.bend_form().path.rows()[0].clr.mm(), 101.6);
    let after = Edit::SetClr(typed().bend_id(1), Length::from_mm(101.6)).applied_to(&typed()).unwrap();
    assert_eq!(bends(&after).rows()[1].clr.mm(), 101.6);
    assert_eq!(bends(&after).rows()[2], bends(&typed()).rows()[2]);
}

#[test]
fn an_inserted_vertex_goes_into_its_leg() {
    let at = Point3::new(400.0, 210.0, 30.0);
    let after = Edit::InsertVertex(stair().straight_id(1), at, Length::from_mm(50.0)).applied_to(&stair()).unwrap();
    assert_eq!(points(&after)[3], at);
    let Path::Vertices(path) = &after.path else { panic!() };
    assert_eq!(path.clr()[2].mm(), 50.0);
    let back = Edit::RemoveVertices(vec![after.vertex_id(3)]).applied_to(&after).unwrap();
    assert_eq!(back, stair());
}

#[test]
fn a_vertex_on_a_typed_straight_leaves_every_row_alone() {
    let part = typed();
    let at = Point3::new(80.0, 0.0, 0.0);
    let after = Edit::InsertVertex(part.straight_id(0), at, Length::from_mm(CLR_MM)).applied_to(&part).unwrap();
    let rows = bends(&after).rows();
    assert_eq!((rows[0].straight.mm(), rows[0].angle.degrees(), rows[1].straight.mm()), (80.0, 0.0, 120.0));
    assert_eq!(rows[2..], bends(&part).rows()[1..]);
    let off =
        Edit::InsertVertex(part.straight_id(0), Point3::new(80.0, 5.0, 0.0), Length::from_mm(CLR_MM)).applied_to(&part);
    assert!(matches!(off, Err(EditRefusal::Impossible(_))), "a half turn has no vertex form: {off:?}");
}

#[test]
fn removing_a_bend_joins_its_neighbours() {
    let after = Edit::RemoveBends(vec![stair().bend_id(0)]).applied_to(&stair()).unwrap();
    assert_eq!(points(&after).len(), 4);
    let after = Edit::RemoveBends(vec![typed().bend_id(1)]).applied_to(&typed()).unwrap();
    assert_eq!(bends(&after).rows().len(), 2);
    assert_eq!(bends(&after).rows()[1].straight.mm(), 280.0);
}

#[test]
fn typed_numbers_survive_a_drag_elsewhere() {
    let part = part(vec![row(200.0, 0.0, 45.0), row(150.0, 90.0, 33.3), row(130.0, -30.0, 30.0)], 220.0).unwrap();
    let tail = part.path.bend_form().path;
    let end = elbowroom_geometry::Centreline::of(&tail).elements().last().unwrap().end().origin;
    let to = end + nalgebra::Vector3::new(3.0, 2.0, 1.0);
    let after = Edit::MoveHandle(HandleId::Finish, to).applied_to(&part).unwrap();
    assert_eq!(bends(&after).rows()[..2], tail.rows()[..2]);
    assert_ne!(bends(&after).rows()[2].angle, tail.rows()[2].angle);
}

#[test]
fn the_ends_of_a_large_bend_are_dragged_in_both_forms() {
    let along = |path: &BendPath| *elbowroom_geometry::Centreline::of(path).arc(1).unwrap();
    let before = bends(&typed()).clone();
    let to = along(&before).start.origin + along(&before).start.tangent * 25.0;
    let after = Edit::MoveHandle(HandleId::ArcStart(typed().bend_id(1)), to).applied_to(&typed()).unwrap();
    assert_abs_diff_eq!(bends(&after).rows()[1].straight.mm(), 175.0, epsilon = 1e-9);
    // In vertex form a bend of 171° is large as well; turned past half a turn it is held in bend form.
    let sharp = part(vec![row(200.0, 0.0, 45.0), row(150.0, 90.0, 171.0)], 220.0).unwrap();
    let drawn = part_along(Path::Vertices(bends(&sharp).to_vertex_form().unwrap()));
    let start = along(bends(&sharp)).start;
    let end_at = |degrees: f64| start.bent(CLR_MM, degrees.to_radians()).origin;
    let after = Edit::MoveHandle(HandleId::ArcEnd(drawn.bend_id(1)), end_at(150.0)).applied_to(&drawn).unwrap();
    assert_abs_diff_eq!(after.path.bend_form().path.rows()[1].angle.degrees(), 150.0, epsilon = 1e-6);
    assert_eq!(points(&after).len(), 4);
    let after = Edit::MoveHandle(HandleId::ArcEnd(drawn.bend_id(1)), end_at(190.0)).applied_to(&drawn).unwrap();
    assert_abs_diff_eq!(bends(&after).rows()[1].angle.degrees(), 190.0, epsilon = 1e-6);
}

#[test]
fn a_large_bend_is_dragged_by_its_tangent_points() {
    let part = typed();
    let start = elbowroom_geometry::Centreline::of(bends(&part)).arc(1).unwrap().start;
    let to = start.origin + start.tangent * 25.0;
    let after = Edit::MoveHandle(HandleId::ArcStart(part.bend_id(1)), to).applied_to(&part).unwrap();
    assert_abs_diff_eq!(bends(&after).rows()[1].straight.mm(), 175.0, epsilon = 1e-9);
    assert_eq!(bends(&after).rows()[2], bends(&part).rows()[2]);
    let refusal = Edit::MoveHandle(HandleId::ArcEnd(part.bend_id(7)), to).applied_to(&part).unwrap_err();
    assert_eq!(refusal.to_string(), "there is no such bend; the part has 3 bends");
    // A drawing with a bend that large is dragged by it too.
    let sharp = drawn(&[[0.0, 0.0, 0.0], [3000.0, 0.0, 0.0], [0.0, 200.0, 0.0]]);
    let start = elbowroom_geometry::Centreline::of(&sharp.path.bend_form().path).arc(0).unwrap().start;
    let after = Edit::MoveHandle(HandleId::ArcStart(sharp.bend_id(0)), start.origin + start.tangent * 25.0)
        .applied_to(&sharp)
        .unwrap();
    let was = sharp.path.bend_form().path.rows()[0].straight.mm();
    assert_abs_diff_eq!(bends(&after).rows()[0].straight.mm(), was + 25.0, epsilon = 1e-9);
}

#[test]
fn swapping_ends_twice_gives_the_part_back() {
    for part in [stair(), typed()] {
        let part = Edit::SetStock(End::Start, Length::from_mm(12.0)).applied_to(&part).unwrap();
        let turned = Edit::SwapEnds.applied_to(&part).unwrap();
        assert_eq!(turned.stock.tail.mm(), 12.0);
        let back = Edit::SwapEnds.applied_to(&turned).unwrap();
        let (was, is) = (part.path.bend_form().path, back.path.bend_form().path);
        assert_eq!(was.rows(), is.rows());
        assert_abs_diff_eq!((was.start().origin - is.start().origin).norm(), 0.0, epsilon = 1e-9);
        assert_abs_diff_eq!((was.start().normal - is.start().normal).norm(), 0.0, epsilon = 1e-9);
    }
}

#[test]
fn several_edits_are_one_or_none() {
    let good = Edit::SetStraight(typed().straight_id(0), Length::from_mm(300.0));
    let bad = Edit::SetAngle(typed().bend_id(9), Angle::HALF_TURN);
    let together = Edit::Together("tidy up".into(), vec![good, bad]);
    let refusal = together.applied_to(&typed()).unwrap_err();
    assert_eq!(refusal.to_string(), "there is no such bend; the part has 3 bends");
    assert_eq!(together.label(&typed()), "tidy up");
}

#[test]
fn numbers_are_guarded_at_the_door() {
    let nan = Length::from_mm(f64::NAN);
    for part in [stair(), typed()] {
        let bend = part.bend_id(0);
        let refused = [
            Edit::SetStraight(bend, nan),
            Edit::SetClr(bend, nan),
            Edit::SetEveryClr(Length::from_mm(-1.0)),
            Edit::SetStock(End::Finish, Length::from_mm(-1.0)),
            Edit::ChooseClamp(Some(Length::ZERO)),
            Edit::SetAngle(bend, Angle::from_degrees(400.0)),
            Edit::SetRotation(part.bend_id(1), Angle::from_radians(f64::INFINITY)),
            Edit::SetStart(Point3::new(f64::NAN, 0.0, 0.0)),
        ];
        for edit in refused {
            let refused = edit.applied_to(&part);
            assert!(matches!(refused, Err(EditRefusal::Number(_))), "{edit:?}: {refused:?}");
        }
    }
}

#[test]
fn labels_say_what_is_undone() {
    let part = stair();
    let label = |edit: Edit| edit.label(&part);
    assert_eq!(label(Edit::MoveVertex(part.vertex_id(2), Point3::origin())), "move vertex 3");
    let both = [0, 2].map(|vertex| (part.vertex_id(vertex), Point3::origin()));
    assert_eq!(label(Edit::MoveVertices(both.to_vec())), "move 2 vertices");
    assert_eq!(label(Edit::SetAngle(part.bend_id(1), Angle::from_degrees(45.0))), "set angle of bend 2 to 45.0°");
    assert_eq!(label(Edit::RemoveBends(vec![part.bend_id(0), part.bend_id(1)])), "remove 2 bends");
    assert_eq!(label(Edit::ChooseClamp(Some(Length::from_mm(80.0)))), "choose 80.0 mm clamp");
    let clamp = Edit::ChooseClamp(Some(Length::from_mm(76.2)));
    assert_eq!(clamp.label(&Edit::ShowUnits(LengthUnit::Inch).applied_to(&part).unwrap()), "choose 3.000 in clamp");
}
