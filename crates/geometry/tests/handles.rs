//! Dragging handles: what moves, what stays, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use crate::common::{frames, path, row};
use elbowroom_geometry::{
    Angle, BendPath, Centreline, HANDLE_LIMIT, HandleId, Length, Point3, Vector3, drag_handle, handles,
};
use proptest::prelude::*;

fn point_of(path: &BendPath, id: HandleId) -> Point3<f64> {
    handles(path).into_iter().find(|handle| handle.id == id).unwrap().point
}

/// A corner, a U-bend, two corners.
fn with_u_bend() -> BendPath {
    path(
        &[
            row(200.0, 0.0, 60.0, 90.0),
            row(300.0, 50.0, 180.0, 90.0),
            row(250.0, -70.0, 45.0, 90.0),
            row(200.0, 90.0, 90.0, 90.0),
        ],
        150.0,
    )
}

#[test]
fn large_bends_are_held_by_their_tangent_points() {
    let part = with_u_bend();
    let ids: Vec<HandleId> = handles(&part).iter().map(|handle| handle.id).collect();
    use HandleId::*;
    assert_eq!(ids, [Start, Vertex(0), ArcStart(1), ArcEnd(1), Vertex(2), Vertex(3), Finish]);
    let centreline = Centreline::of(&part);
    let arc = centreline.arc(1).unwrap();
    assert!((point_of(&part, ArcStart(1)) - arc.start.origin).norm() < 1e-9);
    assert!((point_of(&part, ArcEnd(1)) - arc.end().origin).norm() < 1e-9);
    let slides: Vec<bool> = handles(&part).iter().map(|handle| handle.slides_along.is_some()).collect();
    assert_eq!(slides, [false, false, true, false, true, false, false]);
    let almost = path(&[row(10.0, 0.0, HANDLE_LIMIT.degrees() - 0.001, 90.0)], 10.0);
    assert_eq!(handles(&almost)[1].id, Vertex(0));
}

#[test]
fn a_drag_to_where_it_is_changes_no_bit() {
    for part in [with_u_bend(), common::twelve_bends(), path(&[], 100.0), path(&[row(0.0, 0.0, 350.0, 50.0)], 10.0)] {
        for handle in handles(&part) {
            if matches!(handle.id, HandleId::ArcStart(_) | HandleId::ArcEnd(_)) {
                let moved = drag_handle(&part, handle.id, handle.point).unwrap();
                for (new, old) in moved.rows().iter().zip(part.rows()) {
                    assert!((new.straight - old.straight).mm().abs() < 1e-9);
                    assert!((new.angle - old.angle).radians().abs() < 1e-9);
                    assert!((new.rotation - old.rotation).radians().abs() < 1e-9);
                }
            } else {
                assert_eq!(drag_handle(&part, handle.id, handle.point).unwrap(), part, "{:?}", handle.id);
            }
        }
    }
}

#[test]
fn a_corner_before_a_large_bend_turns_what_lies_beyond() {
    let part = with_u_bend();
    let start = point_of(&part, HandleId::ArcStart(1));
    let vertex = point_of(&part, HandleId::Vertex(0));
    let moved = drag_handle(&part, HandleId::Vertex(0), vertex + Vector3::new(-20.0, 35.0, 15.0)).unwrap();
    assert!((point_of(&moved, HandleId::ArcStart(1)) - start).norm() < 1e-9, "the start of the arc stays");
    for bend in 2..4 {
        assert_eq!(moved.rows()[bend], part.rows()[bend], "what lies beyond is rigid");
    }
    assert_eq!(moved.rows()[1].angle, part.rows()[1].angle);
    assert_eq!(moved.tail(), part.tail());
    // The smallest rotation: the axis of the arc turns about the same line as the direction into it.
    let arc = |path: &BendPath| Centreline::of(path).arc(1).unwrap().start;
    let (was, is) = (arc(&part), arc(&moved));
    let axis = was.tangent.cross(&is.tangent).normalize();
    let turn = nalgebra_rotation(&axis, was.tangent.angle(&is.tangent));
    assert!((turn * was.normal - is.normal).norm() < 1e-9);
}

fn nalgebra_rotation(axis: &Vector3<f64>, angle: f64) -> nalgebra::Rotation3<f64> {
    nalgebra::Rotation3::from_axis_angle(&nalgebra::Unit::new_normalize(*axis), angle)
}

#[test]
fn the_first_corner_after_a_large_bend_slides() {
    let part = with_u_bend();
    let vertex = point_of(&part, HandleId::Vertex(2));
    let end = point_of(&part, HandleId::ArcEnd(1));
    let along = (vertex - end).normalize();
    let moved = drag_handle(&part, HandleId::Vertex(2), vertex + along * 40.0 + Vector3::new(1.0, -7.0, 3.0)).unwrap();
    let now = point_of(&moved, HandleId::Vertex(2));
    assert!((now - end).cross(&along).norm() < 1e-9, "it stays on the line");
    assert!((point_of(&moved, HandleId::Vertex(3)) - point_of(&part, HandleId::Vertex(3))).norm() < 1e-9);
    assert_eq!(moved.rows()[1], part.rows()[1]);
    // Behind the arc's end it stops.
    let behind = drag_handle(&part, HandleId::Vertex(2), end - along * 500.0).unwrap();
    assert!((point_of(&behind, HandleId::Vertex(2)) - end).norm() < 0.01);
    let tail = path(&[row(100.0, 0.0, 180.0, 90.0)], 50.0);
    let moved = drag_handle(&tail, HandleId::Finish, Point3::new(20.0, 300.0, 10.0)).unwrap();
    assert!((moved.tail().mm() - 80.0).abs() < 1e-9, "{}", moved.tail().mm());
}

#[test]
fn the_start_of_a_large_bend_slides_and_all_beyond_moves_parallel() {
    let part = with_u_bend();
    let start = point_of(&part, HandleId::ArcStart(1));
    let direction = Centreline::of(&part).arc(1).unwrap().start.tangent;
    let moved = drag_handle(&part, HandleId::ArcStart(1), start + direction * 33.0).unwrap();
    assert!((moved.rows()[1].straight.mm() - 333.0).abs() < 1e-9);
    let shift = point_of(&moved, HandleId::Finish) - point_of(&part, HandleId::Finish);
    assert!((shift - direction * 33.0).norm() < 1e-9);
    let back = drag_handle(&part, HandleId::ArcStart(1), start - direction * 5000.0).unwrap();
    assert!((back.rows()[1].straight.mm() + part.rows()[0].tangent_mm()).abs() < 1e-9, "it stops at the vertex");
}

#[test]
fn a_corner_dragged_into_line_keeps_its_place() {
    let part = path(&[row(100.0, 0.0, 40.0, 50.0), row(100.0, 90.0, 40.0, 50.0)], 100.0);
    let (a, b) = (point_of(&part, HandleId::Start), point_of(&part, HandleId::Vertex(1)));
    let moved = drag_handle(&part, HandleId::Vertex(0), nalgebra::center(&a, &b)).unwrap();
    assert_eq!(moved.rows().len(), 2);
    assert_eq!(moved.rows()[0].angle, Angle::ZERO);
    assert_eq!(moved.rows()[0].clr, part.rows()[0].clr);
    assert!((point_of(&moved, HandleId::Vertex(1)) - b).norm() < 1e-9);
}

#[test]
fn impossible_drags_are_refused() {
    let part = with_u_bend();
    let refused = |id, to| drag_handle(&part, id, to).unwrap_err().to_string();
    assert!(refused(HandleId::Start, Point3::new(f64::NAN, 0.0, 0.0)).contains("the new place, x"));
    assert!(refused(HandleId::Start, Point3::new(0.0, 2e9, 0.0)).contains("the new place, y"));
    assert!(refused(HandleId::Vertex(9), Point3::origin()).contains("bend 10"));
    assert!(refused(HandleId::Vertex(1), Point3::origin()).contains("its arc"));
    assert!(refused(HandleId::Start, point_of(&part, HandleId::Vertex(0))).contains("0 mm long"));
    let simple = path(&[row(100.0, 0.0, 40.0, 50.0)], 100.0);
    assert!(drag_handle(&simple, HandleId::Finish, Point3::origin()).unwrap_err().to_string().contains("folded"));
}

proptest! {
    /// In a run of ordinary corners one vertex moves and all others stay.
    #[test]
    fn only_the_dragged_vertex_moves(
        start in frames(), rows in common::rows(1..9, 100.0..400.0, 1.0..=120.0), which in 0usize..9,
        by in proptest::array::uniform3(-60.0..60.0f64),
    ) {
        let part = BendPath::new(start, rows, Length::from_mm(100.0)).unwrap();
        let old = handles(&part);
        let handle = old[which % old.len()];
        let to = handle.point + Vector3::from(by);
        if let Ok(moved) = drag_handle(&part, handle.id, to) {
            // The moved corner may have become a large bend; the vertices are compared all the same.
            if let Ok(vertices) = moved.to_vertex_form() {
                for (index, was) in old.iter().enumerate() {
                    let expected = if was.id == handle.id { to } else { was.point };
                    prop_assert!((vertices.points()[index] - expected).norm() < 1e-6, "handle {index}");
                }
            }
        }
    }

    /// The end of the arc comes as near to the pointer as any plane and angle allow.
    #[test]
    fn the_end_of_an_arc_comes_nearest(
        angle in 170.0..300.0f64, clr in 30.0..150.0f64, to in proptest::array::uniform3(-400.0..400.0f64),
    ) {
        let part = path(&[row(100.0, 0.0, 30.0, clr), row(100.0, 40.0, angle, clr), row(50.0, 20.0, 30.0, clr)], 80.0);
        let to = Point3::from(to);
        let moved = drag_handle(&part, HandleId::ArcEnd(1), to).unwrap();
        let arc = |path: &BendPath| *Centreline::of(path).arc(1).unwrap();
        let reached = (arc(&moved).end().origin - to).norm();
        prop_assert!((arc(&moved).start.origin - arc(&part).start.origin).norm() < 1e-9);
        prop_assert_eq!(moved.rows()[2], part.rows()[2]);
        let start = arc(&part).start;
        for plane in 0..72 {
            for turn in 0..=359 {
                let tried = start.rolled(f64::from(plane) * 5f64.to_radians()).bent(clr, f64::from(turn).to_radians());
                prop_assert!(reached <= (tried.origin - to).norm() + 1e-6);
            }
        }
    }

    /// With large bends about, a drag of a corner keeps all that lies before it, and its neighbours.
    #[test]
    fn large_bends_stay_rigid(
        rows in common::rows(3..7, 100.0..400.0, 100.0..=200.0), which in 0usize..12,
        by in proptest::array::uniform3(-40.0..40.0f64),
    ) {
        let part = path(&rows, 100.0);
        let old = handles(&part);
        let place = which % old.len();
        if let Ok(moved) = drag_handle(&part, old[place].id, old[place].point + Vector3::from(by)) {
            for (was, is) in part.rows().iter().zip(moved.rows()) {
                if was.angle >= HANDLE_LIMIT && old[place].id.bend().is_none() {
                    prop_assert_eq!(was.angle, is.angle);
                }
                prop_assert_eq!(was.clr, is.clr);
            }
            if place > 0 {
                prop_assert_eq!(moved.start().origin, part.start().origin);
            }
        }
    }
}
