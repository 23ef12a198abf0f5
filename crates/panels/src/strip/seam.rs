//! Where the weld seam lies at every bend, and its line along the strip.

use std::f64::consts::{PI, TAU};

use elbowroom_bending::Solved;

/// The seam of a welded tube where the solved part lays it.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamLine {
    /// The seam's clock position at every bend, radians in (-π, π]: 0 is the outside of the bend, ±π the
    /// inside, ±π/2 its neutral axis.
    pub clocks_rad: Vec<f64>,
}

/// A place of the seam on the drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamPoint {
    /// Length along the tube, mm.
    pub at_mm: f64,
    /// 1 on the outside of the bend, -1 on its inside, 0 on the neutral axis.
    pub outward: f64,
    /// Whether it lies on the side of the tube that the strip shows.
    pub near: bool,
}

impl SeamLine {
    /// The seam of a solved part; `None` for a seamless tube and for a straight one.
    pub fn of(solved: &Solved) -> Option<Self> {
        let lay = solved.seam.as_ref()?;
        Some(Self { clocks_rad: lay.at_bends.iter().map(|at| at.radians()).collect() })
    }

    /// The line along the tube: level along every arc, and from the clock position at one bend to that
    /// at the next along the straight between them, as finely as a screen of `points_per_mm` shows.
    /// `arcs_mm` holds each arc's start and end.
    pub fn line(&self, arcs_mm: &[(f64, f64)], tail_at_mm: f64, points_per_mm: f64) -> Vec<SeamPoint> {
        let mut points = Vec::new();
        let mut before: Option<(f64, f64)> = None;
        for (clock, (from_mm, to_mm)) in self.clocks_rad.iter().zip(arcs_mm) {
            match before {
                None => points.push(point(0.0, *clock)),
                Some((at_mm, previous)) => between(&mut points, (at_mm, previous), (*from_mm, *clock), points_per_mm),
            }
            points.push(point(*from_mm, *clock));
            points.push(point(*to_mm, *clock));
            before = Some((*to_mm, *clock));
        }
        if let Some((_, clock)) = before {
            points.push(point(tail_at_mm, clock));
        }
        points
    }
}

/// The most steps of a wandering line between two bends, fine enough to look round.
const MOST_STEPS: f64 = 24.0;
/// The room that a step takes at least, points.
const STEP_POINTS: f64 = 3.0;

fn between(points: &mut Vec<SeamPoint>, from: (f64, f64), to: (f64, f64), points_per_mm: f64) {
    let turn = within_half_turns(to.1 - from.1);
    if turn == 0.0 {
        return;
    }
    let steps = ((to.0 - from.0).abs() * points_per_mm / STEP_POINTS).clamp(2.0, MOST_STEPS) as u32;
    for step in 1..steps {
        let share = f64::from(step) / f64::from(steps);
        points.push(point(from.0 + (to.0 - from.0) * share, from.1 + turn * share));
    }
}

fn point(at_mm: f64, clock: f64) -> SeamPoint {
    SeamPoint { at_mm, outward: clock.cos(), near: clock.sin() >= -1e-12 }
}

/// The same angle in (-π, π].
fn within_half_turns(angle: f64) -> f64 {
    let within = angle - TAU * (angle / TAU).round();
    if within <= -PI { within + TAU } else { within }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use std::f64::consts::FRAC_PI_2;

    use super::*;

    #[test]
    fn the_line_is_level_in_arcs_and_wanders_between_them() {
        let seam = SeamLine { clocks_rad: vec![FRAC_PI_2, 0.0] };
        let line = seam.line(&[(100.0, 150.0), (250.0, 300.0)], 400.0, 1.0);
        let at = |mm: f64| line.iter().find(|point| point.at_mm == mm).unwrap();
        assert!(at(100.0).outward.abs() < 1e-12 && at(150.0).outward.abs() < 1e-12);
        assert!((at(250.0).outward - 1.0).abs() < 1e-12 && (at(400.0).outward - 1.0).abs() < 1e-12);
        // Halfway round the quarter turn the seam lies at 45°.
        assert!((at(200.0).outward - 0.5_f64.sqrt()).abs() < 1e-12);
        assert!(line.windows(2).all(|pair| pair[0].at_mm <= pair[1].at_mm));
    }

    #[test]
    fn angles_come_back_into_one_turn() {
        assert_eq!(within_half_turns(PI), PI);
        assert_eq!(within_half_turns(-PI), PI);
        assert!((within_half_turns(3.0 * FRAC_PI_2) + FRAC_PI_2).abs() < 1e-12);
        assert!((within_half_turns(-5.0 * PI) - PI).abs() < 1e-12);
    }
}
