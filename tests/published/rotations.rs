//! G01, G02, G04, G05: vertices to lengths, bend angles and the signed rotation between bends.

use elbowroom_bending::Path;
use elbowroom_geometry::VertexPath;

use super::support::{close, solved, vertices};

/// Source of the points: a published question, freemathhelp.com thread 111090 (2018). The lengths and
/// angles are arithmetic from those points.
#[test]
fn g01_published_points_give_lengths_and_angles() {
    let points =
        [[38.5202, -14.0264, 0.0], [45.3142, -14.0264, 0.0], [45.3142, -17.5214, 0.9654], [48.6822, -17.5214, 0.9654]];
    // On a 1 mm tube, since the question names none.
    let solved = solved(Path::Vertices(vertices(&points, 1.0, 1.0)), 1.0);
    for bend in &solved.bends {
        close(bend.angle_rad.to_degrees(), 90.0, 1e-9);
        close(bend.arc_mm, 1.5708, 5e-5);
    }
    // A flat S: the next bend plane is the same one, turned right over.
    assert_eq!(solved.bends[1].rotation_rad.to_degrees().abs(), 180.0);
    for (found, wanted) in solved.straights_mm.iter().zip([5.7940, 1.62588, 2.3680]) {
        close(*found, wanted, 5e-6);
    }
    close(solved.developed_length_mm, 12.92947, 5e-6);
}

/// The four points of a published torsion example: a structural-biology blog of October 2009 that works
/// them in Octave. Published: 65.609, negative.
const TORSION: [[f64; 3]; 4] =
    [[21.350, 31.325, 22.681], [22.409, 31.286, 21.483], [22.840, 29.751, 21.498], [23.543, 29.175, 22.594]];

fn rotations_deg(path: VertexPath) -> Vec<f64> {
    solved(Path::Vertices(path), 1.0).bends.iter().map(|bend| bend.rotation_rad.to_degrees()).collect()
}

/// Source: as [`TORSION`] for size and sign; the sign's convention is that of the IUPAC Gold Book under
/// "torsion angle" (G04, from memory). Bend angles and legs are arithmetic from the points.
#[test]
fn g02_published_torsion_has_its_size_and_sign() {
    let solved = solved(Path::Vertices(vertices(&TORSION, 0.1, 1.0)), 1.0);
    close(solved.bends[1].rotation_rad.to_degrees(), -65.609, 5e-4);
    close(solved.bends[0].angle_rad.to_degrees(), 78.7315, 5e-5);
    close(solved.bends[1].angle_rad.to_degrees(), 57.9822, 5e-5);
    let legs = [1.59944, 1.59443, 1.42380];
    let tangents = [0.0, solved.bends[0].tangent_mm.unwrap(), solved.bends[1].tangent_mm.unwrap(), 0.0];
    for (index, leg) in legs.into_iter().enumerate() {
        close(solved.straights_mm[index] + tangents[index] + tangents[index + 1], leg, 5e-6);
    }
}

/// Geometry, no source needed: reversal keeps a rotation's value and sign, a mirror flips the sign, and
/// moving and turning the whole changes nothing.
#[test]
fn g05_reversal_mirror_and_motion() {
    close(rotations_deg(vertices(&TORSION, 0.1, 1.0).reversed())[1], -65.60923, 5e-6);
    let mirrored = TORSION.map(|[x, y, z]| [-x, y, z]);
    close(rotations_deg(vertices(&mirrored, 0.1, 1.0))[1], 65.60923, 5e-6);
    // A quarter turn about z, then a third of a turn about the space diagonal, then a shift.
    let moved = TORSION.map(|[x, y, z]| [z + 1000.0, -y - 2000.0, x + 0.5]);
    close(rotations_deg(vertices(&moved, 0.1, 1.0))[1], -65.60923, 5e-6);
}
