//! Length along the tube to point, tangent and frame.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use crate::common::{line, row};
use approx::assert_relative_eq;
use elbowroom_geometry::Centreline;
use proptest::prelude::*;

#[test]
fn stations_find_their_elements() {
    let centreline = line(&[row(100.0, 0.0, 90.0, 76.2)], 50.0);
    let arc_mm = 76.2 * std::f64::consts::FRAC_PI_2;
    assert_eq!(centreline.stations_mm(), (0.0, centreline.length_mm()));
    for (station, element) in [(-1.0, 0), (0.0, 0), (100.0, 0), (100.1, 1), (100.0 + arc_mm + 0.1, 2), (1e6, 2)] {
        assert_eq!(centreline.element_at(station), element, "at {station}");
    }
    assert_eq!(centreline.point_at(-5.0), centreline.elements()[0].start.origin);
    assert_eq!(centreline.frame_at(1e7), centreline.elements()[2].end());
    assert_eq!(centreline.frame_at(f64::NAN), centreline.elements()[0].start);
    assert_relative_eq!(centreline.point_at(100.0 + arc_mm / 2.0).x, 100.0 + 76.2 * 0.5f64.sqrt(), epsilon = 1e-9);
}

#[test]
fn the_first_of_two_overlapping_arcs_wins() {
    let centreline = line(&[row(100.0, 0.0, 90.0, 76.2), row(-20.0, 90.0, 90.0, 76.2)], 50.0);
    let arc = centreline.arc(0).unwrap();
    assert_eq!(centreline.element_at(arc.to_mm() - 10.0), 1);
    assert_eq!(centreline.element_at(arc.to_mm()), 1);
    assert_eq!(centreline.element_at(arc.to_mm() + 1.0), 3);
}

#[test]
fn ends_with_negative_straights_still_have_stations() {
    let centreline = line(&[row(-30.0, 0.0, 90.0, 76.2)], -20.0);
    let arc = centreline.arc(0).unwrap();
    assert_eq!(centreline.stations_mm(), (-30.0, arc.to_mm()));
    assert_eq!(centreline.point_at(-100.0), arc.start.origin);
    assert_eq!(centreline.frame_at(1e6), arc.end());
    let nothing = line(&[row(-30.0, 0.0, 0.0, 0.0)], -20.0);
    assert!(nothing.frame_at(3.0).origin.x.is_finite());
}

proptest! {
    /// The tangent is the derivative of the point, and the frame stays right-handed and unit.
    #[test]
    fn frames_agree_with_finite_differences(
        rows in common::rows(1..12, 10.0..300.0, 0.1..=200.0), start in common::frames(), share in 0.0..1.0f64,
    ) {
        let path = elbowroom_geometry::BendPath::new(start, rows, elbowroom_geometry::Length::from_mm(80.0)).unwrap();
        let centreline = Centreline::of(&path);
        let station = centreline.length_mm() * share;
        let h = 1e-3;
        let (low, high) = ((station - h).max(0.0), (station + h).min(centreline.length_mm()));
        let slope = (centreline.point_at(high) - centreline.point_at(low)) / (high - low);
        let frame = centreline.frame_at(station);
        // Across a tangent point the curvature jumps by up to 1/20 per mm: h/40 off at most.
        prop_assert!((slope - frame.tangent).norm() < 1e-4, "{slope} against {}", frame.tangent);
        prop_assert!((frame.tangent.norm() - 1.0).abs() < 1e-14);
        prop_assert!((frame.normal.norm() - 1.0).abs() < 1e-14);
        prop_assert!(frame.tangent.dot(&frame.normal).abs() < 1e-14);
        let element = &centreline.elements()[centreline.element_at(station)];
        if let elbowroom_geometry::ElementKind::Arc { radius_mm, .. } = element.kind {
            let inside = (low > element.from_mm) && (high < element.to_mm());
            if inside {
                let turn = (centreline.tangent_at(high) - centreline.tangent_at(low)) / (high - low);
                prop_assert!((turn - frame.normal / radius_mm).norm() < 1e-6, "dT/ds = N/R");
            }
        }
    }
}
