//! Published values, as the solver gives them.
#![allow(clippy::unwrap_used, clippy::panic)]

use approx::assert_abs_diff_eq;
use elbowroom_bending::specimen::{CLR_MM, part, part_along, row, shop};
use elbowroom_bending::{Path, Solved, solve};
use elbowroom_geometry::{Length, Point3, VertexPath};

fn drawn(points: &[[f64; 3]], clr_mm: f64) -> Solved {
    let clr = vec![Length::from_mm(clr_mm); points.len() - 2];
    let points = points.iter().map(|p| Point3::new(p[0], p[1], p[2])).collect();
    solve(&part_along(Path::Vertices(VertexPath::new(points, clr).unwrap())), &shop())
}

/// Formula published at pertneer.net/tubebending.php ("Setback = radius X tangent 1/2 angle of bend") and
/// in thesurveyschool.com FS-5-f; the numbers follow from it.
#[test]
fn tangent_and_arc_lengths() {
    for (angle, tangent_mm, arc_mm) in [
        (90.0, 76.2, 119.6947),
        (45.0, 31.5631, 59.8473),
        (30.0, 20.4177, 39.8982),
        (60.0, 43.9941, 79.7965),
        (120.0, 131.9823, 159.5929),
    ] {
        let solved = solve(&part(vec![row(200.0, 0.0, angle)], 200.0).unwrap(), &shop());
        assert_abs_diff_eq!(solved.bends[0].tangent_mm.unwrap(), tangent_mm, epsilon = 5e-5);
        assert_abs_diff_eq!(solved.bends[0].arc_mm, arc_mm, epsilon = 5e-5);
    }
    let solved = solve(&part(vec![row(200.0, 0.0, 180.0)], 200.0).unwrap(), &shop());
    assert_eq!(solved.bends[0].tangent_mm, None);
}

/// An L-bend with stub and leg given to the outside: D1, D2 and the total as published in an
/// electrical-training lesson (Conduit Fabrication II, lesson 4, studylib.net 27409365), in inches. The
/// lesson takes 1.57 for a quarter turn, which costs 0.019.
#[test]
fn an_l_bend_to_its_outside() {
    let (stub, leg, radius, od) = (48.0, 44.0, 24.0, 2.375);
    let solved = drawn(&[[0.0, 0.0, 0.0], [stub - od / 2.0, 0.0, 0.0], [stub - od / 2.0, leg - od / 2.0, 0.0]], radius);
    assert_abs_diff_eq!(solved.straights_mm[0], 22.8125, epsilon = 1e-9);
    assert_abs_diff_eq!(solved.straights_mm[1], 18.8125, epsilon = 1e-9);
    assert_abs_diff_eq!(solved.developed_length_mm, 79.305, epsilon = 0.02);
}

/// Straights of a rectangle with round corners as published by a frame builder (archives/474,
/// "7-(5/8)-(5/8) = 5.75"), in inches; its arcs are 0.98.
#[test]
fn sides_of_a_rectangle() {
    let solved = drawn(
        &[[3.5, 0.0, 0.0], [7.0, 0.0, 0.0], [7.0, 5.0, 0.0], [0.0, 5.0, 0.0], [0.0, 0.0, 0.0], [3.0, 0.0, 0.0]],
        0.625,
    );
    assert_abs_diff_eq!(solved.straights_mm[1], 3.75, epsilon = 1e-9);
    assert_abs_diff_eq!(solved.straights_mm[2], 5.75, epsilon = 1e-9);
    assert_abs_diff_eq!(solved.straights_mm[3], 3.75, epsilon = 1e-9);
    assert_abs_diff_eq!(solved.bends[0].arc_mm, 0.98, epsilon = 0.005);
}

/// Bend lengths of a hand bender's instruction sheet (manualshive.com 3501979 p. 10), in inches to the
/// nearest sixteenth.
#[test]
fn bend_lengths_of_an_instruction_sheet() {
    for (radius, quarter, half) in
        [(3.0, 4.75, 9.4375), (4.0, 6.3125, 12.5625), (5.0, 7.875, 15.75), (6.0, 9.4375, 18.875)]
    {
        for (angle, printed) in [(90.0, quarter), (180.0, half)] {
            let rows = vec![elbowroom_bending::specimen::row_at(20.0, 0.0, angle, radius)];
            let solved = solve(&part(rows, 20.0).unwrap(), &shop());
            assert_abs_diff_eq!(solved.bends[0].arc_mm, printed, epsilon = 0.043);
        }
    }
}

/// The straight left between the two bends of an offset: H / sin θ - 2 R tan(θ/2) (derived), whose first
/// term is the multiplier that conduit tables print as 1.414 for 45° (Albany Tech. notes).
#[test]
fn the_straight_of_an_offset() {
    let (height, leg) = (100.0, 300.0);
    let solved = drawn(
        &[[0.0, 0.0, 0.0], [leg, 0.0, 0.0], [leg + height, height, 0.0], [2.0 * leg + height, height, 0.0]],
        CLR_MM,
    );
    assert_abs_diff_eq!(solved.straights_mm[1], 78.2952, epsilon = 1e-4);
    // 44.6369 mm is the least height that leaves no straight at all.
    let least = 44.636_9;
    let solved = drawn(&[[0.0, 0.0, 0.0], [leg, 0.0, 0.0], [leg + least, least, 0.0], [2.0 * leg, least, 0.0]], CLR_MM);
    assert_abs_diff_eq!(solved.straights_mm[1], 0.0, epsilon = 1e-3);
}
