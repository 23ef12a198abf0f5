//! A whole part moved, turned and mirrored: it stays the tube that it was, and mirrored its rotations count the other way.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::specimen::{part, row_at, seam_at, shop};
use elbowroom_bending::{Edit, Motion, Part, Path, System, SystemEdit, SystemEvent, solve};
use elbowroom_geometry::{Angle, Length, Point3, Vector3};
use proptest::prelude::*;

/// Lengths and angles that went through a motion differ by less than this, mm and rad.
const ROUNDING: f64 = 1e-6;

/// Parts as they are drawn in a shop, in either form. No row turns by almost nothing or almost half way round, where the
/// sign of a rotation is a matter of rounding.
fn drawn() -> impl Strategy<Value = Part> {
    let row = (60.0..300.0, -170.0..170.0, 5.0..150.0)
        .prop_map(|(straight, rotation, angle)| row_at(straight, rotation, angle, 76.2));
    (prop::collection::vec(row, 1..6), 60.0..300.0, any::<bool>()).prop_map(|(rows, tail, as_vertices)| {
        let mut part = part(rows, tail).unwrap();
        if as_vertices {
            part.path = Path::Vertices(part.path.bend_form().path.to_vertex_form().unwrap());
        }
        part
    })
}

fn vector() -> impl Strategy<Value = Vector3<f64>> {
    let share = || prop_oneof![-1.0..-0.1, 0.1..1.0];
    (share(), share(), share()).prop_map(|(x, y, z)| Vector3::new(x, y, z))
}

fn point() -> impl Strategy<Value = Point3<f64>> {
    vector().prop_map(|vector| Point3::from(vector * 800.0))
}

fn moved(part: &Part, motion: Motion) -> Part {
    Edit::Move(motion).applied_to(part).unwrap()
}

/// Straights, angles and radii, and the rotations between bends: that of the first bend says only how the tube lies.
fn figures(part: &Part) -> (Vec<f64>, Vec<f64>) {
    let path = part.path.bend_form().path;
    let sizes = path.rows().iter().flat_map(|row| [row.straight.mm(), row.angle.radians(), row.clr.mm()]);
    let rotations = path.rows().iter().skip(1).map(|row| row.rotation.radians()).collect();
    (sizes.chain([path.tail().mm()]).collect(), rotations)
}

fn near(a: &[f64], b: &[f64]) -> bool {
    a.len() == b.len() && a.iter().zip(b).all(|(a, b)| (a - b).abs() < ROUNDING)
}

fn points(part: &Part) -> Vec<Point3<f64>> {
    let solved = solve(part, &shop());
    let elements = solved.centreline.elements();
    elements
        .iter()
        .flat_map(|element| [element.start.origin, element.turned(0.5).origin, element.end().origin])
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, cases: 128, ..ProptestConfig::default() })]

    /// Mirrored it has the same lengths, angles and radii, opposite rotations, and lies where a mirror shows it.
    #[test]
    fn a_mirror_keeps_lengths_and_turns_rotations_round(part in drawn(), through in point(), normal in vector()) {
        let mirror = Motion::Mirrored { through, normal };
        let other = moved(&part, mirror);
        let ((sizes, rotations), (its_sizes, its_rotations)) = (figures(&part), figures(&other));
        prop_assert!(near(&sizes, &its_sizes), "{sizes:?} {its_sizes:?}");
        let opposite: Vec<f64> = rotations.iter().map(|rotation| -rotation).collect();
        prop_assert!(near(&opposite, &its_rotations), "{rotations:?} {its_rotations:?}");
        let (solved, its) = (solve(&part, &shop()), solve(&other, &shop()));
        prop_assert!((solved.blank_length_mm - its.blank_length_mm).abs() < ROUNDING);
        prop_assert_eq!(solved.findings.len(), its.findings.len());
        for (here, there) in points(&part).iter().zip(points(&other)) {
            let unit = normal.normalize();
            let wanted = here - unit * (2.0 * unit.dot(&(here - through)));
            prop_assert!((there - wanted).norm() < 1e-5, "{there:?} {wanted:?}");
        }
        // And the mirror image of the mirror image is the tube itself.
        let back = moved(&other, mirror);
        for (here, there) in points(&part).iter().zip(points(&back)) {
            prop_assert!((here - there).norm() < 1e-5);
        }
    }

    /// Moved and turned it is the same tube, rotations and all; every point goes the same way.
    #[test]
    fn moving_and_turning_bend_nothing(part in drawn(), by in vector(), about in point(), axis in vector(), turn in -170.0..170.0) {
        let by = by * 500.0;
        let along = moved(&part, Motion::By(by));
        prop_assert!(near(&figures(&part).0, &figures(&along).0) && near(&figures(&part).1, &figures(&along).1));
        for (here, there) in points(&part).iter().zip(points(&along)) {
            prop_assert!((here + by - there).norm() < 1e-6);
        }
        let turned = moved(&part, Motion::Turned { about, axis, by: Angle::from_degrees(turn) });
        prop_assert!(near(&figures(&part).0, &figures(&turned).0) && near(&figures(&part).1, &figures(&turned).1));
        for (here, there) in points(&part).iter().zip(points(&turned)) {
            let (here, there) = (here - about, there - about);
            prop_assert!((here.norm() - there.norm()).abs() < 1e-6, "it keeps its distance from the axis");
            prop_assert!((here.dot(&axis) - there.dot(&axis)).abs() < 1e-4, "and its place along it");
        }
    }
}

/// A quarter turn about z takes x to y, counterclockwise for one who looks down on it.
#[test]
fn a_turn_counts_counterclockwise_for_one_whom_the_axis_points_at() {
    let part = part(vec![row_at(300.0, 0.0, 90.0, 76.2)], 200.0).unwrap();
    let motion =
        Motion::Turned { about: Point3::new(0.0, 0.0, 50.0), axis: Vector3::z() * 3.0, by: Angle::from_degrees(90.0) };
    let went = motion.moves(&[Point3::new(10.0, 0.0, 7.0)]).unwrap();
    assert!((went[0] - Point3::new(0.0, 10.0, 7.0)).norm() < 1e-12, "{went:?}");
    assert!(moved(&part, motion).start().coords.norm() < 1e-9, "the start lies on the axis");
}

#[test]
fn a_motion_without_a_direction_or_out_of_reach_is_refused() {
    let part = part(vec![row_at(300.0, 0.0, 90.0, 76.2)], 200.0).unwrap();
    let nowhere = Motion::Mirrored { through: Point3::origin(), normal: Vector3::zeros() };
    assert!(Edit::Move(nowhere).applied_to(&part).is_err());
    assert!(Edit::Move(Motion::By(Vector3::new(f64::NAN, 0.0, 0.0))).applied_to(&part).is_err());
    assert!(Edit::Move(Motion::By(Vector3::new(1e9, 0.0, 0.0))).applied_to(&part).is_err());
}

#[test]
fn a_mirrored_tube_has_its_pinned_seam_on_the_other_side_and_no_pieces() {
    let mut part = part(vec![row_at(300.0, 0.0, 90.0, 76.2)], 200.0).unwrap();
    part.tooling.seam_start = Some(seam_at(35.0));
    let mirror = Motion::Mirrored { through: Point3::origin(), normal: Vector3::y() };
    let clock = moved(&part, mirror).tooling.seam_start.map(|start| start.clock().degrees());
    assert!((clock.unwrap() + 35.0).abs() < 1e-9, "{clock:?}");
    let turned = Motion::Turned { about: Point3::origin(), axis: Vector3::z(), by: Angle::from_degrees(10.0) };
    assert_eq!(moved(&part, turned).tooling.seam_start, part.tooling.seam_start);
}

#[test]
fn a_mirrored_copy_is_a_tube_of_its_own_and_one_step() {
    let part = part(vec![row_at(300.0, 0.0, 90.0, 76.2), row_at(200.0, 40.0, 30.0, 76.2)], 200.0).unwrap();
    let system = System::of(part);
    let first = system.active();
    let edit = SystemEdit::MirrorTube(first, Point3::new(0.0, -100.0, 0.0), Vector3::y());
    let both = edit.applied_to(&system).unwrap();
    assert_eq!(both.tubes().len(), 2);
    assert!(both.active() != first && both.tubes()[0] == system.tubes()[0]);
    let (one, two) = (&both.tubes()[0].part, &both.tubes()[1].part);
    assert!((figures(one).1[0] + figures(two).1[0]).abs() < ROUNDING, "its rotation counts the other way");
    assert!((two.start() - Point3::new(0.0, -200.0, 0.0)).norm() < 1e-9, "{:?}", two.start());
}

#[test]
fn the_floor_is_laid_where_somebody_lays_it_and_nowhere_else() {
    let system = System::of(part(vec![row_at(300.0, 0.0, 90.0, 76.2)], 200.0).unwrap());
    assert_eq!(system.floor(), Length::ZERO);
    let laid = SystemEdit::SetFloor(Length::from_mm(-120.0)).applied_to(&system).unwrap();
    assert_eq!(laid.floor().mm(), -120.0);
    assert!(!laid.holds_the_same_as(&system));
    assert_eq!(SystemEvent::between(&system, &laid), [SystemEvent::FloorLaid]);
    let down = SystemEdit::ChangeTube(laid.active(), Edit::Move(Motion::By(Vector3::new(0.0, 0.0, -900.0))));
    assert_eq!(down.applied_to(&laid).unwrap().floor().mm(), -120.0, "it does not sink with a tube");
    for nonsense in [f64::NAN, f64::INFINITY, 2e7] {
        let refused = SystemEdit::SetFloor(Length::from_mm(nonsense)).applied_to(&system);
        assert!(refused.unwrap_err().to_string().contains("floor"), "{nonsense}");
    }
}
