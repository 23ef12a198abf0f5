//! Boxes and closest points, against sampling.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use crate::common::{frames, line, row};
use elbowroom_geometry::{BendPath, BoundingBox, Centreline, Length, Point3, SkinOptions, skin};
use proptest::prelude::*;

fn stations(centreline: &Centreline, count: usize) -> impl Iterator<Item = f64> {
    let (low, high) = centreline.stations_mm();
    (0..=count).map(move |i| low + (high - low) * i as f64 / count as f64)
}

fn holds(held: &BoundingBox, point: &Point3<f64>, slack: f64) -> bool {
    (0..3).all(|axis| point[axis] >= held.min[axis] - slack && point[axis] <= held.max[axis] + slack)
}

/// A quarter bend along the axes has a box that can be written down: leg, radius and tube.
#[test]
fn the_box_of_a_quarter_bend() {
    let centreline = line(&[row(100.0, 0.0, 90.0, 76.2)], 50.0);
    let held = centreline.bounding_box();
    assert!((held.max - Point3::new(176.2, 126.2, 0.0)).norm() < 1e-9);
    assert!((held.min - Point3::origin()).norm() < 1e-9);
    let tube = centreline.tube_bounding_box(50.8);
    assert!((tube.max - Point3::new(201.6, 126.2, 25.4)).norm() < 1e-9, "{tube:?}");
    assert!((tube.min - Point3::new(0.0, -25.4, -25.4)).norm() < 1e-9, "{tube:?}");
    let turn = line(&[row(0.0, 0.0, 200.0, 100.0)], 0.0).bounding_box();
    assert!((turn.max.x - 100.0).abs() < 1e-9 && (turn.max.y - 200.0).abs() < 1e-9);
    assert!((turn.min.x + 100.0 * 20f64.to_radians().sin()).abs() < 1e-9);
    assert_eq!(line(&[], -5.0).bounding_box().size().norm(), 0.0);
    assert_eq!(centreline.tube_bounding_box(f64::NAN), held);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn boxes_hold_the_tube_and_fit_it(
        start in frames(), rows in common::rows(1..5, 0.0..300.0, 0.1..=200.0), od in 10.0..100.0f64,
    ) {
        let path = BendPath::new(start, rows, Length::from_mm(80.0)).unwrap();
        let centreline = Centreline::of(&path);
        let (line_box, tube_box) = (centreline.bounding_box(), centreline.tube_bounding_box(od));
        let mut sampled = BoundingBox::of_point(start.origin);
        for station in stations(&centreline, 4000) {
            let point = centreline.point_at(station);
            prop_assert!(holds(&line_box, &point, 1e-8));
            sampled = sampled.union(&BoundingBox::of_point(point));
        }
        // A step of s leaves a circle by s²/8R: below 0.01 mm here.
        prop_assert!((sampled.min - line_box.min).amax() < 0.01 && (sampled.max - line_box.max).amax() < 0.01);
        let options = SkinOptions { od_mm: od, chord_tolerance_mm: 0.02, ..SkinOptions::default() };
        let mesh = skin(&centreline, &options);
        let mut sampled = BoundingBox::of_point(mesh.positions[0]);
        for position in &mesh.positions {
            prop_assert!(holds(&tube_box, position, 1e-8), "{position} outside {tube_box:?}");
            sampled = sampled.union(&BoundingBox::of_point(*position));
        }
        let loose = (sampled.min - tube_box.min).amax().max((sampled.max - tube_box.max).amax());
        prop_assert!(loose < 0.05, "{loose}");
    }

    #[test]
    fn no_sampled_point_is_nearer_than_the_closest(
        start in frames(), rows in common::rows(1..6, -40.0..300.0, 0.0..=300.0),
        away in proptest::array::uniform3(-500.0..500.0f64), share in 0.0..1.0f64,
    ) {
        let path = BendPath::new(start, rows, Length::from_mm(80.0)).unwrap();
        let centreline = Centreline::of(&path);
        let point = centreline.point_at(centreline.length_mm() * share) + elbowroom_geometry::Vector3::from(away);
        let closest = centreline.closest_point(&point);
        prop_assert!(((closest.point - point).norm() - closest.distance_mm).abs() < 1e-12);
        let element = &centreline.elements()[closest.element];
        let there = element.frame_at(element.along_mm(closest.station_mm)).origin;
        prop_assert!((there - closest.point).norm() < 1e-8);
        for element in centreline.elements().iter().filter(|e| e.length_mm >= 0.0) {
            for i in 0..=400 {
                let sample = element.turned(f64::from(i) / 400.0).origin;
                prop_assert!((sample - point).norm() >= closest.distance_mm - 1e-8);
            }
        }
    }
}
