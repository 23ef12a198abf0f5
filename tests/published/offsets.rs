//! G20: the straight that an offset leaves between two equal bends.

use elbowroom_bending::Path;
use elbowroom_geometry::VertexPath;

use super::support::{close, solved, vertices};

/// An offset of height `height`, both bends of one angle.
fn offset(height: f64, angle_deg: f64, clr: f64) -> VertexPath {
    let run = height / f64::to_radians(angle_deg).tan();
    let points = [[0.0, 0.0, 0.0], [300.0, 0.0, 0.0], [300.0 + run, height, 0.0], [600.0 + run, height, 0.0]];
    vertices(&points, clr, 1.0)
}

/// Geometry, no source needed: straight = H/sin θ − 2 R tan(θ/2).
#[test]
fn g20_straight_between_the_bends_of_an_offset() {
    let found = solved(Path::Vertices(offset(100.0, 45.0, 76.2)), 50.8);
    close(found.straights_mm[1], 78.2952, 5e-5);
    close(found.bends[0].angle_rad.to_degrees(), 45.0, 1e-9);
    assert_eq!(found.bends[1].rotation_rad.to_degrees().abs(), 180.0);
    // The least height there is, 2 R (1 − cos θ), leaves no straight at all.
    close(solved(Path::Vertices(offset(44.6369, 45.0, 76.2)), 50.8).straights_mm[1], 0.0, 1e-4);
}
