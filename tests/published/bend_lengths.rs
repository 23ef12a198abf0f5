//! G12, G13: lengths of bends from a hand bender's instruction sheet, in inches.

use elbowroom_bending::Path;

use super::support::{INCH, close, one_bend, solved};

fn arc_in(angle_deg: f64, clr_in: f64) -> f64 {
    solved(Path::Bends(one_bend(angle_deg, clr_in, 10.0, INCH)), INCH).bends[0].arc_mm / INCH
}

/// Source: a hand bender's instruction sheet, manualshive.com 3501979, page 10, the layout length chart,
/// rounded there to sixteenths and by up to 0.043 in.
#[test]
fn g12_length_chart_for_quarter_and_half_turns() {
    let chart = [
        (3.0, 4.0 + 3.0 / 4.0, 9.0 + 7.0 / 16.0),
        (4.0, 6.0 + 5.0 / 16.0, 12.0 + 9.0 / 16.0),
        (5.0, 7.0 + 7.0 / 8.0, 15.0 + 3.0 / 4.0),
        (6.0, 9.0 + 7.0 / 16.0, 18.0 + 7.0 / 8.0),
    ];
    for (clr, quarter, half) in chart {
        close(arc_in(90.0, clr), quarter, 0.043);
        close(arc_in(180.0, clr), half, 0.043);
    }
}

/// Source: the same sheet's worked examples. Its figure for R 6 and 30°, 3.19, follows from a misprint on
/// the page (38.28 for 6 × 6.28) and is wrong; 3.14 is right.
#[test]
fn g13_worked_examples_and_a_misprint() {
    close(arc_in(120.0, 4.0), 8.38, 0.01);
    close(arc_in(30.0, 6.0), 3.14, 0.005);
    assert!((arc_in(30.0, 6.0) - 3.19).abs() > 0.04, "the misprint must not come out");
}
