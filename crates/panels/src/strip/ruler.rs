//! The ruler: round steps that leave its figures room at any scale.

use elbowroom_geometry::units::{LengthUnit, format_number};

/// A line of the ruler.
#[derive(Clone, Debug, PartialEq)]
pub struct Tick {
    /// Length along the tube, mm.
    pub at_mm: f64,
    /// The figure beside it, for a long line.
    pub figure: Option<String>,
}

/// Round steps for the figures, with how many short lines divide each.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Step {
    units: f64,
    parts: u32,
}

/// The ruler's lines between two places (mm), where a figure takes `room` points.
pub fn ticks(shown_mm: (f64, f64), points_per_mm: f64, unit: LengthUnit, room: f64) -> Vec<Tick> {
    let per_unit = points_per_mm * unit.in_mm();
    if !(per_unit.is_finite() && per_unit > 0.0 && shown_mm.1 > shown_mm.0) {
        return Vec::new();
    }
    let step = step(room / per_unit, unit);
    // Short lines are left away where they would run into one another.
    let parts = if step.units / f64::from(step.parts) * per_unit >= 4.0 { step.parts } else { 1 };
    let small = step.units / f64::from(parts);
    let (first, last) = ((shown_mm.0 / unit.in_mm() / small).ceil(), (shown_mm.1 / unit.in_mm() / small).floor());
    let decimals = decimals(step.units);
    let mut ticks = Vec::new();
    let mut count = first;
    while count <= last {
        let units = count * small;
        let long = count.rem_euclid(f64::from(parts)) == 0.0;
        ticks.push(Tick { at_mm: units * unit.in_mm(), figure: long.then(|| format_number(units, decimals)) });
        count += 1.0;
    }
    ticks
}

/// The smallest round step of at least `least` units.
fn step(least: f64, unit: LengthUnit) -> Step {
    // Inches below one are halved as on a rule; everything else goes by ones, twos and fives.
    if unit == LengthUnit::Inch && least <= 0.5 {
        let units = [0.0625, 0.125, 0.25, 0.5].into_iter().find(|units| *units >= least).unwrap_or(0.5);
        return Step { units, parts: 4 };
    }
    let decade = 10f64.powf(least.max(1e-12).log10().floor());
    let choices = [(1.0, 10), (2.0, 4), (5.0, 5), (10.0, 10)];
    let found = choices.into_iter().find(|(factor, _)| factor * decade >= least * (1.0 - 1e-12));
    let (factor, parts) = found.unwrap_or((10.0, 10));
    Step { units: factor * decade, parts }
}

/// As many decimals as the step has.
fn decimals(step: f64) -> usize {
    (0..=6).find(|decimals| (step * 10f64.powi(*decimals)).fract().abs() < 1e-9).unwrap_or(6) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figures(shown_mm: (f64, f64), points_per_mm: f64, unit: LengthUnit) -> String {
        let ticks = ticks(shown_mm, points_per_mm, unit, 60.0);
        ticks.into_iter().filter_map(|tick| tick.figure).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn figures_are_round_at_any_scale() {
        use LengthUnit::{Inch, Metre, Millimetre};
        assert_eq!(figures((-40.0, 410.0), 1.0, Millimetre), "0 100 200 300 400");
        assert_eq!(figures((0.0, 4000.0), 0.12, Millimetre), "0 500 1000 1500 2000 2500 3000 3500 4000");
        assert_eq!(figures((99.0, 103.0), 24.0, Millimetre), "100");
        assert_eq!(figures((0.0, 4000.0), 0.12, Metre), "0.0 0.5 1.0 1.5 2.0 2.5 3.0 3.5 4.0");
        assert_eq!(figures((0.0, 50.8), 10.0, Inch), "0.00 0.25 0.50 0.75 1.00 1.25 1.50 1.75 2.00");
    }

    #[test]
    fn short_lines_never_run_together() {
        for points_per_mm in [0.001, 0.05, 0.3, 1.0, 7.0, 24.0] {
            for unit in LengthUnit::ALL {
                let ticks = ticks((0.0, 1000.0 / points_per_mm), points_per_mm, unit, 60.0);
                assert!(ticks.len() > 1, "{points_per_mm} {unit:?}");
                for pair in ticks.windows(2) {
                    assert!((pair[1].at_mm - pair[0].at_mm) * points_per_mm >= 3.99, "{points_per_mm} {unit:?}");
                }
            }
        }
    }

    #[test]
    fn nonsense_has_no_ruler() {
        assert!(ticks((0.0, 1.0), f64::NAN, LengthUnit::Inch, 60.0).is_empty());
        assert!(ticks((1.0, 0.0), 1.0, LengthUnit::Inch, 60.0).is_empty());
    }
}
