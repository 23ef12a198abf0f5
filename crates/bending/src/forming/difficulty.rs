//! Wall factor, D of bend, difficulty: the figures by which tooling is chosen.

use elbowroom_geometry::units::Shown;
use elbowroom_geometry::{Angle, Length};

/// Rigidity constant Kr of the difficulty rule; 2 for most materials (C10).
pub const USUAL_RIGIDITY: f64 = 2.0;
/// A bend up to this difficulty is simple, by the tool-maker's published rule (M03).
pub const SIMPLE_DIFFICULTY: f64 = 7.0;

/// Wall factor OD/t (M01).
pub fn wall_factor(od: Length, wall: Length) -> f64 {
    od / wall
}

/// D of bend CLR/OD (M01).
pub fn bend_diameters(od: Length, clr: Length) -> f64 {
    clr / od
}

/// Bend difficulty (2 Kr + 0.2 Fw + θ/180°) / Fd, a tool-maker's published rule (M03).
pub fn difficulty(od: Length, wall: Length, clr: Length, angle: Angle, rigidity: f64) -> f64 {
    (2.0 * rigidity + 0.2 * wall_factor(od, wall) + angle.degrees() / 180.0) / bend_diameters(od, clr)
}

/// A difficulty as it is shown: to a tenth, and with the digits that decide where a tenth does not tell on which side of
/// [`SIMPLE_DIFFICULTY`] it lies.
pub fn shown(difficulty: f64) -> Shown {
    let decimals = (1..4).find(|&decimals| {
        let power = 10.0_f64.powi(decimals);
        let rounded = (difficulty * power).round() / power;
        // What lies beyond must not look as if it lay just on the limit.
        (rounded > SIMPLE_DIFFICULTY) == (difficulty > SIMPLE_DIFFICULTY)
    });
    Shown::new(difficulty, decimals.unwrap_or(4) as usize, "")
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_abs_diff_eq;

    const OD: Length = Length::from_mm(50.8);
    const WALL: Length = Length::from_mm(1.5);

    #[test]
    fn difficulty_by_the_published_formula() {
        // Tool-maker's page "Fb = [ 2Kr + .2Fw + ( B / 180 ) ] / [ Fd ]"; the numbers are arithmetic.
        for (diameters, degrees, expected) in [(1.5, 90.0, 7.516), (1.5, 180.0, 7.849), (2.0, 90.0, 5.637)] {
            let value = difficulty(OD, WALL, OD * diameters, Angle::from_degrees(degrees), USUAL_RIGIDITY);
            assert_abs_diff_eq!(value, expected, epsilon = 5e-4);
        }
        assert_abs_diff_eq!(wall_factor(OD, WALL), 33.867, epsilon = 5e-4);
    }

    #[test]
    fn the_digits_that_decide_are_shown() {
        for (difficulty, said) in
            [(6.96, "7.0"), (7.0, "7.0"), (7.04, "7.04"), (7.004, "7.004"), (7.06, "7.1"), (7.000_000_1, "7.0000")]
        {
            assert_eq!(shown(difficulty).to_string(), said, "{difficulty}");
        }
    }
}
