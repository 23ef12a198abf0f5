//! G09, G10, G11: parts that a drawing dimensions to the outside of the tube or round a frame.

use elbowroom_bending::Path;

use super::support::{INCH, close, solved, vertices};

/// Source: an electrical training lesson, Conduit Fabrication II, lesson 4 (studylib.net 27409365): stub
/// 48, leg 44, R 24, outside diameter 2.375 in, bent in 18 shots. It takes 1.57 for a quarter turn.
#[test]
fn g09_bend_with_stub_and_leg_given_to_the_outside() {
    let (stub, leg, od) = (48.0, 44.0, 2.375);
    let (x, y) = (stub - od / 2.0, leg - od / 2.0);
    let path = vertices(&[[0.0, 0.0, 0.0], [x, 0.0, 0.0], [x, y, 0.0]], 24.0, INCH);
    let solved = solved(Path::Vertices(path), od * INCH);
    close(solved.straights_mm[0] / INCH, 22.8125, 1e-9);
    close(solved.straights_mm[1] / INCH, 18.8125, 1e-9);
    // 1.57 for half of pi is 0.0191 in short on this radius.
    let arc = solved.bends[0].arc_mm / INCH;
    close(arc, 37.68, 0.0192);
    close(arc, 37.6991, 5e-5);
    close(arc / 18.0, 2.09, 0.005);
    close(solved.developed_length_mm / INCH, 79.305, 0.0192);
    close(solved.developed_length_mm / INCH, 79.3241, 5e-5);
}

/// Source: a frame builder's blog, archives/474: 7 x 5 in with corners of R 5/8 in has straights of 5.75
/// and 3.75 and corners of 0.98 in. The length all round is arithmetic.
#[test]
fn g10_straights_of_a_closed_rectangle() {
    let (a, b, middle) = (7.0, 5.0, 3.5);
    let round = [[middle, 0.0, 0.0], [a, 0.0, 0.0], [a, b, 0.0], [0.0, b, 0.0], [0.0, 0.0, 0.0], [middle, 0.0, 0.0]];
    let solved = solved(Path::Vertices(vertices(&round, 0.625, INCH)), 0.5 * INCH);
    let straights: Vec<f64> = solved.straights_mm.iter().map(|mm| mm / INCH).collect();
    for (found, wanted) in straights[1..4].iter().zip([3.75, 5.75, 3.75]) {
        close(*found, wanted, 1e-9);
    }
    close(straights[0] + straights[4], 5.75, 1e-9);
    for bend in &solved.bends {
        close(bend.arc_mm / INCH, 0.98, 0.005);
    }
    close(solved.developed_length_mm / INCH, 22.9270, 5e-5);
}

/// Source: a roll cage article, fourwheeler.com, February 1998: 25 in to the outside, R 6, 2 in tube: the
/// bend starts at 18 in.
#[test]
fn g11_start_of_bend_from_an_outside_dimension() {
    let corner = 25.0 - 2.0 / 2.0;
    let path = vertices(&[[0.0, 0.0, 0.0], [corner, 0.0, 0.0], [corner, 30.0, 0.0]], 6.0, INCH);
    close(solved(Path::Vertices(path), 2.0 * INCH).bends[0].starts_at_mm / INCH, 18.0, 1e-9);
}
