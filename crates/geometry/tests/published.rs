//! Published values, each with its source; what is only arithmetic on a published formula says so.
// The figures are kept as they were printed, so some look like shortened constants.
#![allow(clippy::unwrap_used, clippy::panic, clippy::approx_constant)]

use std::f64::consts::{FRAC_PI_2, PI};

use crate::common::{line, path, row, vertices};
use approx::assert_relative_eq;
use elbowroom_geometry::units::{LengthUnit, format_inch_fraction};
use elbowroom_geometry::{Centreline, Length, VertexPath, dihedral};

/// G01. Points published as a question at freemathhelp.com, thread 111090 (2018); the results are
/// arithmetic (the forum's own answer was not readable). A planar S: rotation of exactly half a turn.
#[test]
fn g01_a_planar_s() {
    let points =
        [[38.5202, -14.0264, 0.0], [45.3142, -14.0264, 0.0], [45.3142, -17.5214, 0.9654], [48.6822, -17.5214, 0.9654]];
    let form = vertices(&points, 1.0).to_bend_form();
    assert_eq!(form.problems, vec![]);
    let rows = form.path.rows();
    assert_relative_eq!(rows[0].straight.mm(), 5.7940, epsilon = 5e-5);
    assert_relative_eq!(rows[1].straight.mm(), 1.62588, epsilon = 5e-6);
    assert_relative_eq!(form.path.tail().mm(), 2.3680, epsilon = 5e-5);
    for row in rows {
        assert_relative_eq!(row.angle.degrees(), 90.0, epsilon = 1e-9);
        assert_relative_eq!(row.arc_mm(), 1.5708, epsilon = 5e-5);
    }
    assert_eq!(rows[1].rotation.radians().abs(), PI);
    assert_relative_eq!(Centreline::of(&form.path).length_mm(), 12.92947, epsilon = 5e-6);
}

/// The four points of G02: a structural-biology blog's worked torsion example (Octave, October 2009).
const TORSION: [[f64; 3]; 4] =
    [[21.350, 31.325, 22.681], [22.409, 31.286, 21.483], [22.840, 29.751, 21.498], [23.543, 29.175, 22.594]];

/// G02, G04. Magnitude and negative sign as published there; the sign follows the IUPAC Gold Book,
/// "torsion angle" (from memory): clockwise along the middle leg is positive. Angles and legs are
/// arithmetic.
#[test]
fn g02_the_sign_of_a_rotation() {
    let form = vertices(&TORSION, 0.0).to_bend_form();
    let rows = form.path.rows();
    assert_relative_eq!(rows[1].rotation.degrees(), -65.609, epsilon = 5e-4);
    assert_relative_eq!(rows[0].angle.degrees(), 78.7315, epsilon = 5e-5);
    assert_relative_eq!(rows[1].angle.degrees(), 57.9822, epsilon = 5e-5);
    assert_relative_eq!(rows[0].straight.mm(), 1.59944, epsilon = 5e-6);
    assert_relative_eq!(rows[1].straight.mm(), 1.59443, epsilon = 5e-6);
    assert_relative_eq!(form.path.tail().mm(), 1.42380, epsilon = 5e-6);
    let legs: Vec<_> = vertices(&TORSION, 0.0).points().windows(2).map(|pair| pair[1] - pair[0]).collect();
    assert_relative_eq!(dihedral(&legs[0], &legs[1], &legs[2]).unwrap().degrees(), -65.60923, epsilon = 5e-6);
}

/// G05, geometry: reversal keeps the sign, a mirror flips it.
#[test]
fn g05_reversal_and_mirror() {
    let rotation = |path: &VertexPath| path.to_bend_form().path.rows()[1].rotation.degrees();
    assert_relative_eq!(rotation(&vertices(&TORSION, 0.0).reversed()), -65.60923, epsilon = 5e-6);
    let mirrored = TORSION.map(|[x, y, z]| [-x, y, z]);
    assert_relative_eq!(rotation(&vertices(&mirrored, 0.0)), 65.60923, epsilon = 5e-6);
}

/// G06. T = R tan(θ/2) as pertneer.net/tubebending.php and thesurveyschool.com FS-5-f give it; the
/// numbers are arithmetic for R = 76.2.
#[test]
fn g06_tangent_and_arc() {
    for (degrees, tangent, arc) in [
        (90.0, 76.2000, 119.6947),
        (45.0, 31.5631, 59.8473),
        (30.0, 20.4177, 39.8982),
        (60.0, 43.9941, 79.7965),
        (120.0, 131.9823, 159.5929),
    ] {
        let bend = row(200.0, 0.0, degrees, 76.2);
        assert_relative_eq!(bend.tangent_mm(), tangent, epsilon = 5.1e-5);
        assert_relative_eq!(bend.arc_mm(), arc, epsilon = 5.1e-5);
        // The solved line agrees: its vertex lies a tangent length ahead of the arc.
        let part = path(&[bend], 200.0);
        assert_relative_eq!(part.to_vertex_form().unwrap().points()[1].x, 200.0 + tangent, epsilon = 5.1e-5);
        assert_relative_eq!(Centreline::of(&part).length_mm(), 400.0 + arc, epsilon = 5.1e-5);
    }
}

/// G07. External, mid-ordinate and chord as on reviewcivilpe.com, horizontal curves; the numbers are
/// arithmetic for R = 100 and 90°.
#[test]
fn g07_external_mid_ordinate_and_chord() {
    let part = path(&[row(0.0, 0.0, 90.0, 100.0)], 0.0);
    let centreline = Centreline::of(&part);
    let (start, end) = (centreline.point_at(0.0), centreline.point_at(centreline.length_mm()));
    let middle = centreline.point_at(centreline.length_mm() / 2.0);
    let vertex = part.to_vertex_form().unwrap().points()[1];
    assert_relative_eq!((vertex - start).norm(), 100.0, epsilon = 1e-9);
    assert_relative_eq!(centreline.length_mm(), 157.0796, epsilon = 5e-5);
    assert_relative_eq!((vertex - middle).norm(), 41.4214, epsilon = 5e-5);
    assert_relative_eq!((middle - nalgebra::center(&start, &end)).norm(), 29.2893, epsilon = 5e-5);
    assert_relative_eq!((end - start).norm(), 141.4214, epsilon = 5e-5);
}

/// G08. Gain = 2T − arc as hand-bender tables print it (from memory, 90° is 0.43 R); the other numbers
/// are arithmetic.
#[test]
fn g08_gain() {
    for (degrees, gain) in [
        (15.0, 0.0015),
        (22.5, 0.0051),
        (30.0, 0.0123),
        (45.0, 0.0430),
        (60.0, 0.1075),
        (75.0, 0.2257),
        (90.0, 0.4292),
        (120.0, 1.3697),
        (135.0, 2.4722),
    ] {
        let bend = row(0.0, 0.0, degrees, 1.0);
        assert_relative_eq!(2.0 * bend.tangent_mm() - bend.arc_mm(), gain, epsilon = 5.1e-5);
    }
}

/// G09. An electrical-training lesson, Conduit Fabrication II, lesson 4 (studylib.net 27409365): stub 48,
/// leg 44 to the outside, radius 24, OD 2.375 in gives D1 22.8125, D2 18.8125 and a total of 79.305. It
/// takes 1.57 for π/2, which costs 0.019 in.
#[test]
fn g09_an_l_bend() {
    let (stub, leg, radius, od) = (48.0, 44.0, 24.0, 2.375);
    let corner = od / 2.0;
    let form = vertices(&[[0.0, stub - corner, 0.0], [0.0, 0.0, 0.0], [leg - corner, 0.0, 0.0]], radius).to_bend_form();
    assert_relative_eq!(form.path.rows()[0].straight.mm(), 22.8125, epsilon = 1e-9);
    assert_relative_eq!(form.path.tail().mm(), 18.8125, epsilon = 1e-9);
    assert_relative_eq!(form.path.rows()[0].arc_mm(), 37.68, epsilon = 0.02);
    assert_relative_eq!(Centreline::of(&form.path).length_mm(), 79.305, epsilon = 0.0195);
    // Measured over the tube the outside dimensions come back.
    let size = Centreline::of(&form.path).tube_bounding_box(od).size();
    assert_relative_eq!(size.x, leg, epsilon = 1e-9);
    assert_relative_eq!(size.y, stub, epsilon = 1e-9);
}

/// G10. A frame builder's blog, archives/474: a rectangle of 7 by 5 in with corners of 5/8 in has
/// straights of 5.75 and 3.75 and arcs of 0.98; the total is arithmetic.
#[test]
fn g10_a_closed_rectangle() {
    // Begun in the middle of a long side.
    let points = [[3.5, 0.0, 0.0], [7.0, 0.0, 0.0], [7.0, 5.0, 0.0], [0.0, 5.0, 0.0], [0.0, 0.0, 0.0], [3.5, 0.0, 0.0]];
    let form = vertices(&points, 0.625).to_bend_form();
    let straights: Vec<f64> = form.path.rows().iter().map(|row| row.straight.mm()).collect();
    assert_relative_eq!(straights[0] + form.path.tail().mm(), 5.75, epsilon = 1e-9);
    for (straight, published) in straights[1..].iter().zip([3.75, 5.75, 3.75]) {
        assert_relative_eq!(*straight, published, epsilon = 1e-9);
    }
    assert_relative_eq!(form.path.rows()[0].arc_mm(), 0.98, epsilon = 5e-3);
    assert_relative_eq!(Centreline::of(&form.path).length_mm(), 22.9270, epsilon = 5e-5);
}

/// G11. fourwheeler.com, a roll cage article of February 1998, photo 5: 25 in to the outside with radius
/// 6 and OD 2 starts its bend at 18.
#[test]
fn g11_the_start_of_a_bend_from_an_outside_dimension() {
    let form = vertices(&[[0.0, 0.0, 0.0], [25.0 - 1.0, 0.0, 0.0], [24.0, 30.0, 0.0]], 6.0).to_bend_form();
    assert_relative_eq!(form.path.rows()[0].straight.mm(), 18.0, epsilon = 1e-9);
}

/// G12. A hand bender's instruction sheet (manualshive.com 3501979, page 10): lengths of 90° and 180° to
/// the nearest sixteenth, off by up to 0.043 in.
#[test]
fn g12_a_table_of_bend_lengths() {
    for (radius, quarter, half) in
        [(3.0, 4.75, 9.4375), (4.0, 6.3125, 12.5625), (5.0, 7.875, 15.75), (6.0, 9.4375, 18.875)]
    {
        let length = |degrees| line(&[row(0.0, 0.0, degrees, radius)], 0.0).length_mm();
        assert_relative_eq!(length(90.0), quarter, epsilon = 0.043);
        assert_relative_eq!(length(180.0), half, epsilon = 0.043);
    }
    // Two of its entries as a tape would show them.
    let inches = |value: f64| format_inch_fraction(Length::from_mm(value * LengthUnit::Inch.in_mm()));
    assert_eq!(inches(5.0 * FRAC_PI_2), "7 7/8\"");
    assert_eq!(inches(6.0 * FRAC_PI_2), "9 7/16\"");
}

/// G13. The same sheet: radius 4, 120° is 8.38 in; radius 6, 30° is 3.14 (it misprints 3.19, by 38.28 for
/// 6 × 6.28).
#[test]
fn g13_worked_bend_lengths() {
    assert_relative_eq!(row(0.0, 0.0, 120.0, 4.0).arc_mm(), 8.38, epsilon = 5e-3);
    assert_relative_eq!(row(0.0, 0.0, 30.0, 6.0).arc_mm(), 3.14, epsilon = 5e-3);
}

/// G20, arithmetic: an offset of H between equal bends leaves H/sin θ − 2R tan(θ/2) of straight; the
/// least H is 2R(1 − cos θ).
#[test]
fn g20_an_offset() {
    let theta = 45f64.to_radians();
    let offset = |height: f64| {
        let run = height / theta.tan();
        let form = vertices(
            &[[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0 + run, height, 0.0], [700.0 + run, height, 0.0]],
            76.2,
        )
        .to_bend_form();
        assert_eq!(form.path.rows()[1].rotation.radians().abs(), PI);
        form.path.rows()[1].straight.mm()
    };
    assert_relative_eq!(offset(100.0), 78.2952, epsilon = 5e-5);
    assert_relative_eq!(offset(44.6369), 0.0, epsilon = 1e-4);
    assert!(offset(40.0) < 0.0, "lower offsets overlap, and say so");
}
