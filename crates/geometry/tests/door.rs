//! What the constructors turn away, what they keep, and that they keep it to the bit.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use crate::common::{frames, path, row};
use elbowroom_geometry::{Angle, BendPath, Frame, LARGEST_MM, Length, Point3, Vector3, VertexPath};
use proptest::prelude::*;

#[test]
fn vertices_are_guarded() {
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1.001e7, -1.001e7] {
        let refusal = VertexPath::new(vec![Point3::origin(), Point3::new(0.0, bad, 0.0)], vec![]).unwrap_err();
        assert_eq!(refusal.field, "vertex 2, y");
        assert!(refusal.to_string().contains("must be"), "{refusal}");
    }
    let three = || vec![Point3::origin(), Point3::new(LARGEST_MM, 0.0, 0.0), Point3::new(LARGEST_MM, LARGEST_MM, 0.0)];
    assert!(VertexPath::new(three(), vec![Length::from_mm(100.0)]).is_ok());
    assert!(VertexPath::new(three(), vec![Length::from_mm(-1.0)]).is_err());
    assert!(VertexPath::new(three(), vec![Length::from_mm(f64::NAN)]).is_err());
    assert!(VertexPath::new(three(), vec![]).is_err());
}

#[test]
fn bends_are_guarded() {
    let tried = |row| BendPath::new(Frame::world(), vec![row], Length::ZERO).map_err(|refusal| refusal.field);
    assert_eq!(tried(row(f64::NAN, 0.0, 90.0, 76.2)), Err("the straight before bend 1".into()));
    assert_eq!(tried(row(1.0, f64::INFINITY, 90.0, 76.2)), Err("the rotation of bend 1".into()));
    assert_eq!(tried(row(1.0, 0.0, -1.0, 76.2)), Err("the angle of bend 1".into()));
    assert_eq!(tried(row(1.0, 0.0, 360.0, 76.2)), Err("the angle of bend 1".into()));
    assert_eq!(tried(row(1.0, 0.0, 90.0, -76.2)), Err("the centreline radius of bend 1".into()));
    assert!(tried(row(-1.0, 0.0, 359.0, 0.0)).is_ok());
    assert!(BendPath::new(Frame::world(), vec![], Length::from_mm(2e9)).is_err());
    for tangent in [Vector3::zeros(), Vector3::new(f64::NAN, 1.0, 0.0), Vector3::new(f64::INFINITY, 1.0, 0.0)] {
        let start = Frame { tangent, ..Frame::world() };
        assert_eq!(BendPath::new(start, vec![], Length::ZERO).unwrap_err().field, "the start direction");
    }
    let start = Frame { origin: Point3::new(f64::NAN, 0.0, 0.0), ..Frame::world() };
    assert_eq!(BendPath::new(start, vec![], Length::ZERO).unwrap_err().field, "the start point");
}

#[test]
fn frames_are_made_from_any_finite_direction() {
    for scale in [1e-300, 1e-160, 1.0, 1e160, 1e300] {
        let frame = Frame::along(Point3::origin(), Vector3::new(3.0, 4.0, 0.0) * scale, Vector3::z() * scale).unwrap();
        assert!((frame.tangent - Vector3::new(0.6, 0.8, 0.0)).norm() < 1e-15, "{scale}");
        assert!((frame.normal - Vector3::z()).norm() < 1e-15);
    }
    for hint in
        [Vector3::zeros(), Vector3::x(), Vector3::new(f64::NAN, 0.0, 0.0), Vector3::new(f64::INFINITY, 0.0, 0.0)]
    {
        let frame = Frame::along(Point3::origin(), Vector3::x() * 2.0, hint).unwrap();
        assert!((frame.normal.norm() - 1.0).abs() < 1e-15 && frame.normal.x.abs() < 1e-15);
    }
}

#[test]
fn the_first_rotation_goes_into_the_start_frame() {
    let part = path(&[row(100.0, 90.0, 45.0, 76.2), row(50.0, 270.0, 30.0, 76.2)], 10.0);
    assert_eq!(part.rows()[0].rotation, Angle::ZERO);
    assert!((part.start().normal - Vector3::z()).norm() < 1e-15);
    assert!((part.rows()[1].rotation.degrees() + 90.0).abs() < 1e-13);
}

proptest! {
    /// A part written in degrees and read again is the same to the bit, start frame and all.
    #[test]
    fn what_comes_out_goes_in_again(
        start in frames(), rows in common::rows(0..8, -50.0..500.0, 0.0..=359.0), radians in -9.0..9.0f64,
    ) {
        let start = start.rolled(radians);
        let part = BendPath::new(start, rows, Length::from_mm(12.0)).unwrap();
        let mut again: Vec<_> = part.rows().to_vec();
        for row in &mut again {
            row.angle = Angle::from_degrees(row.angle.degrees_exact());
            row.rotation = Angle::from_degrees(row.rotation.degrees_exact());
        }
        let back = BendPath::new(*part.start(), again, part.tail()).unwrap();
        prop_assert_eq!(back, part);
    }

    /// So it is for a part that came from vertices.
    #[test]
    fn converted_parts_go_in_again(points in proptest::collection::vec(proptest::array::uniform3(-1e4..1e4f64), 2..9)) {
        let form = common::vertices(&points, 50.0).to_bend_form();
        if form.path.rows().iter().all(|r| r.straight.mm().abs() < LARGEST_MM) {
            let back = BendPath::new(*form.path.start(), form.path.rows().to_vec(), form.path.tail()).unwrap();
            prop_assert_eq!(back, form.path);
        }
    }
}
