//! Where the tube meets itself: cases that can be worked out by hand, and brute force on random parts.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::f64::consts::FRAC_PI_2;

use crate::common::{line, row, twelve_bends};
use elbowroom_geometry::{Centreline, self_clearances};
use proptest::prelude::*;

#[test]
fn parts_that_are_spread_out_meet_nowhere() {
    assert_eq!(self_clearances(&Centreline::of(&twelve_bends()), 60.3), vec![]);
    assert_eq!(self_clearances(&line(&[], 1000.0), 60.3), vec![]);
    assert_eq!(self_clearances(&line(&[], 0.0), 60.3), vec![]);
}

#[test]
fn the_legs_of_a_u_bend_meet_below_twice_the_radius() {
    let u_bend = |clr| line(&[row(200.0, 0.0, 180.0, clr)], 200.0);
    assert_eq!(self_clearances(&u_bend(90.5), 60.3), vec![]);
    // Legs that just touch do not meet.
    assert_eq!(self_clearances(&u_bend(30.15), 60.3), vec![]);
    let meetings = self_clearances(&u_bend(30.0), 60.3);
    assert_eq!(meetings.len(), 1, "{meetings:?}");
    assert!((meetings[0].distance_mm - 60.0).abs() < 1e-6, "{meetings:?}");
    assert_eq!(meetings[0].first_stretch_mm.0, 0.0, "the whole leg is too near");
}

#[test]
fn two_quarter_bends_make_a_u() {
    // Legs 2 R + straight apart.
    let u = |straight| line(&[row(200.0, 0.0, 90.0, 40.0), row(straight, 0.0, 90.0, 40.0)], 200.0);
    assert_eq!(self_clearances(&u(21.0), 100.0), vec![]);
    let meetings = self_clearances(&u(19.0), 100.0);
    assert_eq!(meetings.len(), 1);
    assert!((meetings[0].distance_mm - 99.0).abs() < 1e-6);
}

#[test]
fn a_loop_of_270_degrees_crosses_itself_on_its_legs() {
    let centreline = line(&[row(300.0, 0.0, 270.0, 100.0)], 300.0);
    let meetings = self_clearances(&centreline, 50.0);
    assert_eq!(meetings.len(), 1, "{meetings:?}");
    let meeting = &meetings[0];
    assert!(meeting.distance_mm < 1e-6);
    // The legs cross one radius before the bend and one after it, at right angles.
    assert!((meeting.first_mm - 200.0).abs() < 1e-3, "{meeting:?}");
    assert!((meeting.second_mm - centreline.length_mm() + 200.0).abs() < 1e-3);
    assert!((meeting.first_stretch_mm.0 - 150.0).abs() < 0.01 && (meeting.first_stretch_mm.1 - 250.0).abs() < 0.01);
}

#[test]
fn a_square_coil_meets_where_its_pitch_is_less_than_the_tube() {
    // Four quarter bends, tilted a little so that the last leg passes the first at a known height.
    let side = |rotation| row(300.0, rotation, 90.0, 80.0);
    let flat = line(&[side(0.0), side(0.0), side(0.0), side(0.0)], 300.0);
    let meetings = self_clearances(&flat, 50.0);
    assert!(meetings.iter().any(|m| m.distance_mm < 1e-6), "{meetings:?}");
}

#[test]
fn arcs_at_a_constant_distance_are_settled() {
    // A U-bend, a straight up over quarter bends, and a U-bend lying on the first one: the elements run
    // parallel, which is the hardest case for a search by halving.
    let rows = [row(100.0, 0.0, 180.0, 90.0), row(100.0, 0.0, 180.0, 90.0), row(100.0, 0.0, 180.0, 90.0)];
    let meetings = self_clearances(&line(&rows, 100.0), 60.0);
    // The third U-bend runs exactly along the first one.
    assert!(!meetings.is_empty());
    assert!(meetings[0].distance_mm < 1e-6, "{meetings:?}");
}

#[test]
fn numbers_that_are_no_diameter_meet_nothing() {
    let centreline = line(&[row(300.0, 0.0, 270.0, 100.0)], 300.0);
    for od in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(self_clearances(&centreline, od), vec![]);
    }
}

#[test]
fn a_tube_wound_over_itself_many_times_ends_in_time() {
    let rows: Vec<_> = (0..400).map(|_| row(300.0, 0.0, 90.0, 80.0)).collect();
    let meetings = self_clearances(&line(&rows, 300.0), 50.0);
    assert!(!meetings.is_empty() && meetings[0].distance_mm < 1e-6);
}

/// The smallest distance of places at least half a turn of the tightest bend apart, by sampling.
fn sampled(centreline: &Centreline, od_mm: f64, count: usize) -> f64 {
    let step = centreline.length_mm() / count as f64;
    let points: Vec<_> = (0..=count).map(|i| centreline.point_at(step * i as f64)).collect();
    let apart = (FRAC_PI_2 * od_mm / step).ceil() as usize;
    let mut smallest = f64::INFINITY;
    for (i, point) in points.iter().enumerate() {
        for other in points.iter().skip(i + apart) {
            smallest = smallest.min((other - point).norm());
        }
    }
    smallest
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Crowded random parts: what sampling finds is found, and no better is claimed than is there.
    #[test]
    fn brute_force_agrees(
        rows in proptest::collection::vec((0.0..150.0f64, -180.0..180.0f64, 0.0..200.0f64, 0.0..60.0f64), 1..7),
        od in 20.0..80.0f64,
    ) {
        let rows: Vec<_> = rows.iter().map(|(s, r, a, c)| row(*s, *r, *a, od / 2.0 + c)).collect();
        let centreline = line(&rows, 100.0);
        let count = 1500;
        let step = centreline.length_mm() / f64::from(count);
        let expected = sampled(&centreline, od, count as usize);
        let meetings = self_clearances(&centreline, od);
        let found = meetings.first().map_or(od, |meeting| meeting.distance_mm);
        prop_assert!(found <= expected + 1e-6, "sampling finds {expected}, the search {found} at OD {od}");
        // Sampling is off by one step at most, half at each place.
        prop_assert!(expected.min(od) <= found + step, "the search finds {found}, sampling {expected}");
        for meeting in &meetings {
            let first = centreline.elements()[meeting.first_element];
            let second = centreline.elements()[meeting.second_element];
            let p = first.frame_at(meeting.first_mm - first.from_mm).origin;
            let q = second.frame_at(meeting.second_mm - second.from_mm).origin;
            prop_assert!(((p - q).norm() - meeting.distance_mm).abs() < 1e-7);
            prop_assert!(meeting.second_mm - meeting.first_mm >= FRAC_PI_2 * od - 1e-9);
            prop_assert!(meeting.first_stretch_mm.0 <= meeting.first_mm && meeting.first_mm <= meeting.first_stretch_mm.1);
            prop_assert!(meeting.second_stretch_mm.0 <= meeting.second_mm && meeting.second_mm <= meeting.second_stretch_mm.1);
        }
    }

    /// Radii below OD/2 and overlapping arcs are searched without a panic and without end.
    #[test]
    fn pinched_and_overlapping_parts_are_searched(
        rows in common::rows(1..8, -100.0..100.0, 0.0..=359.0), od in 20.0..400.0f64,
    ) {
        for meeting in self_clearances(&line(&rows, 50.0), od) {
            prop_assert!(meeting.distance_mm < od);
        }
    }
}
