//! Overlap, bite and the smallest straight, against values worked by hand and an independent measure.
#![allow(clippy::unwrap_used, clippy::panic)]

use approx::assert_abs_diff_eq;
use elbowroom_bending::specimen::{CLR_MM, Judged, judged, part, row, row_at, shop};
use elbowroom_bending::{ClampOnTube, Severity, Solved};
use elbowroom_geometry::{BendRow, Length};

fn solved(rows: Vec<BendRow>) -> Judged {
    judged(&part(rows, 300.0).unwrap(), &shop())
}

fn clamp(solved: &Solved, bend: usize) -> ClampOnTube {
    solved.bends[bend].clamp.unwrap()
}

/// The bite measured the dull way: the drawn centreline sampled, its distance from the clamp's axis.
fn sampled(solved: &Solved, bend: usize) -> f64 {
    let clamp = clamp(solved, bend);
    let axis = solved.centreline.arc(bend).unwrap().start;
    let mut worst = 0.0_f64;
    for element in solved.centreline.elements() {
        let (from, to) = (element.from_mm.max(clamp.from_mm), element.to_mm().min(clamp.to_mm));
        if to <= from {
            continue;
        }
        for step in 0..=2000 {
            let at = from + (to - from) * f64::from(step) / 2000.0;
            let away = element.frame_at(at - element.from_mm).origin - axis.origin;
            worst = worst.max((away - axis.tangent * axis.tangent.dot(&away)).norm());
        }
    }
    worst
}

/// 10 mm over a 90° bend of 76.2 mm: R(1 - cos(s/R)), the mid-ordinate formula of G07 (reviewcivilpe.com,
/// horizontal curves) with half the arc.
#[test]
fn one_arc_follows_the_sagitta() {
    let solved = solved(vec![row(200.0, 0.0, 90.0), row(115.0, 0.0, 45.0)]);
    let clamp = clamp(&solved, 1);
    assert_abs_diff_eq!(clamp.overlap_mm, 10.0, epsilon = 1e-9);
    assert_abs_diff_eq!(clamp.bite_mm, CLR_MM * (1.0 - (10.0 / CLR_MM).cos()), epsilon = 1e-12);
    assert_abs_diff_eq!(clamp.bite_mm, 0.655_227, epsilon = 1e-6);
    // Smallest straight for 2 mm: 125 - R acos(1 - 2/R).
    assert_abs_diff_eq!(clamp.needs_straight_mm, 125.0 - CLR_MM * (1.0 - 2.0 / CLR_MM).acos(), epsilon = 1e-9);
    assert_abs_diff_eq!(clamp.mark_free_straight_mm, 125.0 - CLR_MM * (1.0 - 0.3 / CLR_MM).acos(), epsilon = 1e-9);
}

/// Beyond a shallow arc the tube leaves along the arc's end tangent.
#[test]
fn beyond_the_arc_the_bite_grows_in_a_straight_line() {
    let solved = solved(vec![row(200.0, 0.0, 2.0), row(85.0, 0.0, 45.0)]);
    let turned = 2.0_f64.to_radians();
    let arc_mm = CLR_MM * turned;
    let by_hand = CLR_MM * (1.0 - turned.cos()) + (40.0 - arc_mm) * turned.sin();
    assert_abs_diff_eq!(clamp(&solved, 1).bite_mm, by_hand, epsilon = 1e-12);
    assert_abs_diff_eq!(sampled(&solved, 1), by_hand, epsilon = 1e-9);
}

/// With rotation 0 both bends turn to the same side: backwards the tube curves to that side too, towards
/// the die. With 180° it curves into the clamp.
#[test]
fn the_rotation_gives_the_direction() {
    for (rotation, direction) in [(0.0, 0.0), (180.0, 180.0), (90.0, -90.0), (-30.0, 30.0)] {
        let solved = solved(vec![row(200.0, 0.0, 60.0), row(110.0, rotation, 45.0)]);
        let got = clamp(&solved, 1).bite_direction_rad.to_degrees();
        assert_abs_diff_eq!(got.abs(), f64::abs(direction), epsilon = 1e-9);
        if rotation.abs() < 180.0 {
            assert_abs_diff_eq!(got, direction, epsilon = 1e-9);
        }
    }
}

/// Several arcs in several planes under one clamp, against the sampled centreline.
#[test]
fn everything_under_the_clamp_counts() {
    for rotation in [0.0, 35.0, 90.0, 160.0, 180.0, -120.0] {
        let rows = vec![
            row_at(200.0, 0.0, 30.0, 40.0),
            row_at(8.0, rotation, 25.0, 30.0),
            row_at(5.0, 50.0, 12.0, 60.0),
            row_at(3.0, rotation / 2.0, 20.0, 25.0),
            row(12.0, -70.0, 45.0),
        ];
        let solved = solved(rows);
        let clamp = clamp(&solved, 4);
        // No die fits the odd radii of the bends ahead; the last one has its own.
        assert_abs_diff_eq!(clamp.bite_mm, sampled(&solved, 4), epsilon = 1e-4);
        assert!(clamp.bite_mm > 2.0);
    }
}

/// Common practice, no source: on a 1.5D die of 50.8 mm a 125 mm clamp holds 180°, and straights of
/// 125 mm or more pass whatever the angles.
#[test]
fn straights_of_the_clamps_length_pass_whatever_the_angles() {
    for first in [5.0, 45.0, 90.0, 135.0, 180.0] {
        for second in [5.0, 45.0, 90.0, 135.0, 180.0] {
            for straight in [125.0, 130.0, 400.0] {
                let solved = solved(vec![row(200.0, 0.0, first), row(straight, 70.0, second)]);
                assert_eq!(solved.worst(), None, "{first} {second} {straight}: {:?}", solved.findings);
                assert_eq!(solved.verdict.text, "Bends as drawn.");
            }
        }
    }
}

/// Common practice, no source: a shallow bend ahead allows more overlap than a deep one.
#[test]
fn a_shallow_bend_ahead_allows_more_overlap() {
    let needs = |angle| clamp(&solved(vec![row(200.0, 0.0, angle), row(125.0, 0.0, 90.0)]), 1).needs_straight_mm;
    assert!(needs(1.0) < needs(3.0) && needs(3.0) < needs(10.0) && needs(10.0) < needs(30.0));
    assert_abs_diff_eq!(needs(90.0), needs(30.0), epsilon = 1e-9);
}

/// A straight set to what is needed gives just the bite that the clamp closes on, through arcs and
/// straights alike.
#[test]
fn the_smallest_straight_is_the_inverse_of_the_bite() {
    let cases = [
        vec![row(300.0, 0.0, 90.0), row(60.0, 30.0, 45.0)],
        vec![row(300.0, 0.0, 2.0), row(60.0, 30.0, 45.0)],
        vec![row(300.0, 0.0, 1.0), row(4.0, 180.0, 3.0), row(60.0, 0.0, 45.0)],
        vec![row(300.0, 0.0, 60.0), row(4.0, 90.0, 0.7), row(20.0, -50.0, 45.0)],
    ];
    for mut rows in cases {
        let last = rows.len() - 1;
        let first = clamp(&solved(rows.clone()), last);
        for (straight_mm, limit_mm) in [(first.needs_straight_mm, 2.0), (first.mark_free_straight_mm, 0.3)] {
            rows[last].straight = Length::from_mm(straight_mm);
            let again = solved(rows.clone());
            assert_abs_diff_eq!(clamp(&again, last).bite_mm, limit_mm, epsilon = 1e-9);
            assert_abs_diff_eq!(clamp(&again, last).needs_straight_mm, first.needs_straight_mm, epsilon = 1e-9);
        }
        rows[last].straight = Length::from_mm(first.needs_straight_mm);
        let at_last = solved(rows).findings.into_iter().filter(|finding| finding.place.bend == Some(last));
        let worst = at_last.map(|finding| finding.severity).max().unwrap();
        assert!(worst <= Severity::Caution, "{worst:?}");
    }
}
