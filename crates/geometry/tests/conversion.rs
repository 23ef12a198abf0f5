//! From vertices to bends and back: exact, total, and blind to where the part lies.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use crate::common::{frames, path, row, vertices};
use elbowroom_geometry::{Angle, BendPath, Centreline, Length, NoVertexForm, PathProblem, Point3, Vector3, VertexPath};
use proptest::prelude::*;

#[test]
fn a_path_without_length_is_told() {
    for points in [&[][..], &[[1.0, 2.0, 3.0]][..], &[[1.0, 2.0, 3.0], [1.0, 2.0, 3.0]][..]] {
        let form = vertices(points, 10.0).to_bend_form();
        assert!(form.problems.contains(&PathProblem::NoLength), "{points:?}");
        assert!(form.path.rows().is_empty());
        assert_eq!(Centreline::of(&form.path).length_mm(), 0.0);
    }
    let two = vertices(&[[0.0, 0.0, 0.0], [0.0, 0.0, 40.0]], 10.0).to_bend_form();
    assert_eq!((two.problems.len(), two.path.tail().mm()), (0, 40.0));
}

#[test]
fn coincident_vertices_are_passed_over_and_told() {
    let form = vertices(
        &[[0.0, 0.0, 0.0], [100.0, 0.0, 0.0], [100.0, 0.0, 0.0], [100.0, 100.0, 0.0], [100.0, 100.0, 0.0]],
        20.0,
    )
    .to_bend_form();
    let expected =
        vec![PathProblem::Coincident { first: 1, second: 2 }, PathProblem::Coincident { first: 3, second: 4 }];
    assert_eq!(form.problems, expected);
    assert_eq!(form.path.rows().len(), 1);
    assert_eq!(form.vertex_of_bend, vec![1]);
}

#[test]
fn an_exact_fold_back_is_told_and_still_drawn() {
    let form =
        vertices(&[[0.0, 0.0, 0.0], [100.0, 0.0, 0.0], [30.0, 0.0, 0.0], [30.0, 50.0, 0.0]], 20.0).to_bend_form();
    assert_eq!(form.problems, vec![PathProblem::FoldBack { vertex: 1 }]);
    let end = Centreline::of(&form.path).elements().last().unwrap().end().origin;
    assert!((end - Point3::new(30.0, 50.0, 0.0)).norm() < 1e-9, "{end}");
}

#[test]
fn collinear_vertices_carry_no_bend() {
    let form = vertices(
        &[
            [0.0, 0.0, 0.0],
            [50.0, 0.0, 0.0],
            [70.0, 0.0, 0.0],
            [100.0, 0.0, 0.0],
            [100.0, 90.0, 0.0],
            [100.0, 200.0, 0.0],
        ],
        20.0,
    )
    .to_bend_form();
    assert_eq!(form.vertex_of_bend, vec![3]);
    assert_eq!(form.problems, vec![]);
    assert!((form.path.rows()[0].straight.mm() - 80.0).abs() < 1e-12);
    assert!((form.path.tail().mm() - 180.0).abs() < 1e-12);
}

#[test]
fn overlapping_arcs_give_a_negative_straight() {
    let form =
        vertices(&[[0.0, 0.0, 0.0], [200.0, 0.0, 0.0], [200.0, 100.0, 0.0], [400.0, 100.0, 0.0]], 76.2).to_bend_form();
    assert!((form.path.rows()[1].straight.mm() - (100.0 - 2.0 * 76.2)).abs() < 1e-9);
    let end = Centreline::of(&form.path).elements().last().unwrap().end().origin;
    assert!((end - Point3::new(400.0, 100.0, 0.0)).norm() < 1e-9, "the far end is where it was drawn");
}

#[test]
fn a_million_metres_are_solved() {
    let far = 1e7;
    let form = vertices(&[[-far, -far, 0.0], [far, -far, 0.0], [far, far, 0.0], [far, far, far]], 90.5).to_bend_form();
    assert_eq!(form.problems, vec![]);
    assert!((form.path.rows()[1].rotation.degrees().abs() - 90.0).abs() < 1e-9);
    let back = form.path.to_vertex_form().unwrap();
    assert!((back.points()[3] - Point3::new(far, far, far)).norm() < 1e-5);
}

#[test]
fn planar_zig_zags_turn_by_exactly_nothing_or_half() {
    // Directions that no floating-point number holds exactly, in a tilted plane.
    let (u, v) = (Vector3::new(0.36, 0.48, 0.8).normalize(), Vector3::new(0.8, -0.6, 0.0));
    let turns = [30.0, -45.0, 17.3, 90.0, -90.0, 60.0, 61.7, -0.1, 0.1, 120.0];
    let (mut heading, mut at) = (0f64, Point3::new(12.3, 45.6, 78.9));
    let mut points = vec![at];
    for turn in turns {
        at += (u * heading.cos() + v * heading.sin()) * 333.3;
        points.push(at);
        heading += f64::to_radians(turn);
    }
    at += (u * heading.cos() + v * heading.sin()) * 333.3;
    points.push(at);
    let clr = vec![Length::from_mm(50.0); turns.len()];
    let form = VertexPath::new(points, clr).unwrap().to_bend_form();
    let rotations: Vec<Angle> = form.path.rows().iter().map(|row| row.rotation).collect();
    assert_eq!(rotations.len(), turns.len());
    for (index, pair) in turns.windows(2).enumerate() {
        let expected = if pair[0] * pair[1] > 0.0 { Angle::ZERO } else { Angle::HALF_TURN };
        assert_eq!(rotations[index + 1], expected, "bend {}", index + 2);
    }
}

#[test]
fn small_and_large_bends_are_carried() {
    for degrees in [0.1, 1.0, 90.0, 179.9, 180.0, 180.1, 200.0] {
        let part = path(&[row(100.0, 0.0, degrees, 76.2)], 50.0);
        let end = Centreline::of(&part).elements()[2].end();
        let turn = degrees.to_radians();
        let expected = Point3::new(
            100.0 + 76.2 * turn.sin() + 50.0 * turn.cos(),
            76.2 * (1.0 - turn.cos()) + 50.0 * turn.sin(),
            0.0,
        );
        assert!((end.origin - expected).norm() < 1e-9, "{degrees}");
        match part.to_vertex_form() {
            Ok(points) => {
                assert!(degrees < 180.0);
                let back = points.to_bend_form().path;
                assert!((back.rows()[0].angle.degrees() - degrees).abs() < 1e-7);
            }
            Err(NoVertexForm { bend, angle }) => {
                assert!(degrees >= 180.0);
                assert_eq!((bend, angle), (0, part.rows()[0].angle));
            }
        }
    }
    // A U-bend is planar to the bit.
    let u_bend = Centreline::of(&path(&[row(100.0, 0.0, 180.0, 76.2)], 100.0));
    assert_eq!(u_bend.elements()[2].end().origin, Point3::new(0.0, 152.4, 0.0));
}

/// Largest differences between two parts: lengths in mm, angles in rad.
fn difference(a: &BendPath, b: &BendPath) -> (f64, f64) {
    let mut worst = ((a.tail() - b.tail()).mm().abs(), 0f64);
    for (a, b) in a.rows().iter().zip(b.rows()) {
        worst.0 = worst.0.max((a.straight - b.straight).mm().abs()).max((a.clr - b.clr).mm().abs());
        let turn = (a.rotation - b.rotation).radians().abs();
        let turn = turn.min((turn - std::f64::consts::TAU).abs());
        worst.1 = worst.1.max((a.angle - b.angle).radians().abs()).max(turn);
    }
    worst
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Bends to vertices and back: 1e-7 mm and 1e-9 rad, up to 200 bends of up to 150° at 10 m scale.
    #[test]
    fn bends_survive_the_vertex_form(
        start in frames(), rows in common::rows(1..201, 1.0..800.0, 0.1..=150.0), tail in 1.0..800.0f64,
    ) {
        let part = BendPath::new(start, rows, Length::from_mm(tail)).unwrap();
        let form = part.to_vertex_form().unwrap().to_bend_form();
        prop_assert_eq!(form.problems, vec![]);
        prop_assert_eq!(form.path.rows().len(), part.rows().len());
        let (mm, rad) = difference(&part, &form.path);
        prop_assert!(mm < 1e-7, "{mm} mm");
        prop_assert!(rad < 1e-9, "{rad} rad");
        prop_assert!((form.path.start().origin - part.start().origin).norm() < 1e-7);
        prop_assert!((form.path.start().normal - part.start().normal).norm() < 1e-8);
    }

    /// Vertices to bends and back.
    #[test]
    fn vertices_survive_the_bend_form(
        points in proptest::collection::vec(proptest::array::uniform3(-5e3..5e3f64), 2..200), clr in 0.0..150.0f64,
    ) {
        let drawn = vertices(&points, clr);
        let form = drawn.to_bend_form();
        // Points drawn at random turn by more than 150° now and then; the vertex form holds those too.
        prop_assume!(form.path.rows().iter().all(|row| row.angle.degrees() < 179.0));
        let back = form.path.to_vertex_form().unwrap();
        for (a, b) in back.points().iter().zip(drawn.points()) {
            prop_assert!((a - b).norm() < 1e-7, "{}", (a - b).norm());
        }
        prop_assert_eq!(back.clr(), drawn.clr());
    }

    /// Moving and turning a part changes nothing; a mirror flips rotations; reversal keeps them (G05).
    #[test]
    fn bends_are_blind_to_place_and_honest_about_handedness(
        points in proptest::collection::vec(proptest::array::uniform3(-1e3..1e3f64), 3..12), to in frames(),
    ) {
        let drawn = vertices(&points, 20.0);
        let form = drawn.to_bend_form();
        prop_assume!(form.path.rows().iter().all(|row| (1.0..179.0).contains(&row.angle.degrees())));
        let map = |f: &dyn Fn(&Point3<f64>) -> Point3<f64>| {
            VertexPath::new(drawn.points().iter().map(f).collect(), drawn.clr().to_vec()).unwrap().to_bend_form().path
        };
        let moved = map(&|p| to.origin + to.tangent * p.x + to.normal * p.y + to.binormal() * p.z);
        let (mm, rad) = difference(&form.path, &moved);
        // Angles tremble by 1e-12 at 10 m, and a tangent length near 180° magnifies that ten thousand times.
        prop_assert!(mm < 1e-5 && rad < 1e-9, "{mm} mm, {rad} rad");
        let mirrored = map(&|p| Point3::new(-p.x, p.y, p.z));
        for (a, b) in form.path.rows().iter().zip(mirrored.rows()) {
            prop_assert!((a.angle - b.angle).radians().abs() < 1e-12);
            let sum = (a.rotation + b.rotation).radians().abs();
            prop_assert!(sum.min((sum - std::f64::consts::TAU).abs()) < 1e-9);
        }
        let reversed = drawn.reversed().to_bend_form().path;
        let (mm, rad) = difference(&form.path.reversed(), &reversed);
        prop_assert!(mm < 1e-6 && rad < 1e-9, "{mm} mm, {rad} rad");
    }

    /// Whatever passes the door is solved: every number of the result is finite.
    #[test]
    fn conversion_is_total(
        points in proptest::collection::vec(proptest::array::uniform3(prop_oneof![Just(0.0), Just(1e7), Just(-1e7), -1.0..1.0f64, Just(1e-7)]), 0..8),
        clr in prop_oneof![Just(0.0), Just(1e7), 0.0..100.0f64],
    ) {
        let form = vertices(&points, clr).to_bend_form();
        for row in form.path.rows() {
            prop_assert!(row.straight.is_finite() && row.rotation.is_finite() && row.angle.is_finite());
        }
        let centreline = Centreline::of(&form.path);
        for element in centreline.elements() {
            prop_assert!(element.end().origin.iter().all(|c| c.is_finite()));
        }
        prop_assert!(centreline.closest_point(&Point3::origin()).distance_mm.is_finite());
        prop_assert!(centreline.tube_bounding_box(60.3).size().norm().is_finite());
    }
}
