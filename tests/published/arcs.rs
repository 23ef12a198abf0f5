//! G06, G07, G08: tangent length, arc, external, middle ordinate, chord and gain of one bend.

use elbowroom_bending::Path;
use elbowroom_geometry::Centreline;

use super::support::{close, one_bend, solved};

/// Source of the formulas: a tube bending calculator page, pertneer.net, and a surveying text,
/// thesurveyschool.com FS-5-f. The figures at R 76.2 mm are arithmetic from them.
#[test]
fn g06_tangent_length_and_arc() {
    let table = [
        (90.0, 76.2000, 119.6947),
        (45.0, 31.5631, 59.8473),
        (30.0, 20.4177, 39.8982),
        (60.0, 43.9941, 79.7965),
        (120.0, 131.9823, 159.5929),
    ];
    for (angle_deg, tangent_mm, arc_mm) in table {
        let solved = solved(Path::Bends(one_bend(angle_deg, 76.2, 200.0, 1.0)), 50.8);
        close(solved.bends[0].tangent_mm.unwrap(), tangent_mm, 5e-5);
        close(solved.bends[0].arc_mm, arc_mm, 5e-5);
        close(solved.developed_length_mm, 400.0 + arc_mm, 5e-5);
    }
}

/// Source of the formulas: notes on horizontal curves, reviewcivilpe.com, and sd-w.com. The figures at
/// R 100 and 90° are arithmetic. Measured here on the centreline in space.
#[test]
fn g07_external_middle_ordinate_and_chord() {
    for angle_deg in [90.0, 12.5, 60.0, 170.0] {
        let path = one_bend(angle_deg, 100.0, 200.0, 1.0);
        let vertex = path.to_vertex_form().unwrap().points()[1];
        let line = Centreline::of(&path);
        let arc = line.arc(0).unwrap();
        let (start, end) = (line.point_at(arc.from_mm), line.point_at(arc.to_mm()));
        let middle = line.point_at((arc.from_mm + arc.to_mm()) / 2.0);
        let chord = (end - start).norm();
        let external = (vertex - middle).norm();
        let ordinate = (middle - nalgebra::center(&start, &end)).norm();
        let tangent = (vertex - start).norm();
        if angle_deg == 90.0 {
            close(tangent, 100.0, 1e-9);
            close(arc.length_mm, 157.0796, 5e-5);
            close(external, 41.4214, 5e-5);
            close(ordinate, 29.2893, 5e-5);
            close(chord, 141.4214, 5e-5);
        }
        let quarter = f64::to_radians(angle_deg / 4.0);
        close(external / (tangent * quarter.tan()), 1.0, 1e-12);
        close(ordinate / (external * (2.0 * quarter).cos()), 1.0, 1e-11);
    }
}

/// Source: the gain table of hand benders, from memory (90°: 0.43 R); the other figures are arithmetic.
#[test]
fn g08_gain_is_sharp_corner_less_bent_length() {
    let table = [
        (15.0, 0.0015),
        (22.5, 0.0051),
        (30.0, 0.0123),
        (45.0, 0.0430),
        (60.0, 0.1075),
        (75.0, 0.2257),
        (90.0, 0.4292),
        (120.0, 1.3697),
        (135.0, 2.4722),
    ];
    for (angle_deg, gain) in table {
        let path = one_bend(angle_deg, 100.0, 300.0, 1.0);
        let corners = path.to_vertex_form().unwrap();
        let sharp: f64 = corners.points().windows(2).map(|leg| (leg[1] - leg[0]).norm()).sum();
        close((sharp - Centreline::of(&path).length_mm()) / 100.0, gain, 5e-5);
    }
}
