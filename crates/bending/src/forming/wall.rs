//! Wall thickness at the outside and inside of a bend, by each published rule, and outer-fibre stretch.
//!
//! The rules disagree (7.7 % to 20 % at three diameters), so a figure never travels without its rule and
//! its base: [`WallFigure`] carries both.

use elbowroom_geometry::Length;

pub use crate::model::wall_rule::WallRule;

/// What a rule says of one bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallFigure {
    /// The rule.
    pub rule: WallRule,
    /// Wall at the outside of the bend.
    pub outside: Length,
    /// Wall at the inside of the bend, where the rule speaks of it.
    pub inside: Option<Length>,
    /// Thinning at the outside as a share of the wall before bending.
    pub thinning: f64,
}

impl WallRule {
    /// The figures of one bend: a tube of outside diameter `od` and wall `wall` on centreline radius `clr`.
    ///
    /// `None` where the inside of the bend folds in on itself (radius not beyond half the diameter).
    pub fn figure(self, od: Length, wall: Length, clr: Length) -> Option<WallFigure> {
        let (half, radius) = (od.mm() / 2.0, clr.mm());
        if !(radius > half && half > 0.0) {
            return None;
        }
        let (kept, inside) = match self {
            Self::TubeExchanger => (1.0 / (1.0 + od.mm() / (4.0 * radius)), None),
            Self::PowerPiping => (1.0 / ordering_factor(radius / od.mm()), None),
            Self::RadiusRatio => (radius / (radius + half), None),
            Self::FreeHoop => ((radius / (radius + half)).sqrt(), Some(wall * (radius / (radius - half)).sqrt())),
        };
        Some(WallFigure { rule: self, outside: wall * kept, inside, thinning: 1.0 - kept })
    }
}

/// Wall to order as a multiple of the minimum wall after bending, ASME B31.1 table 102.4.5 (W03).
fn ordering_factor(diameters: f64) -> f64 {
    const TABLE: [(f64, f64); 4] = [(3.0, 1.25), (4.0, 1.14), (5.0, 1.08), (6.0, 1.06)];
    if diameters <= TABLE[0].0 {
        return TABLE[0].1;
    }
    for pair in TABLE.windows(2) {
        let ((low, at_low), (high, at_high)) = (pair[0], pair[1]);
        if diameters <= high {
            return at_low + (at_high - at_low) * (diameters - low) / (high - low);
        }
    }
    TABLE[3].1
}

/// By what the wall that pressure asks for is multiplied at the inside and at the outside of a bend, against
/// straight tube: (4R/D ∓ 1)/(4R/D ∓ 2), ASME B31.3 304.2.1 (W04). The hoop stress is higher at the inside
/// and lower at the outside, so a wall thinned there is missed less than one might think. `None` where the
/// inside folds in on itself.
pub fn pressure_factors(od: Length, clr: Length) -> Option<(f64, f64)> {
    let ratio = 4.0 * clr.mm() / od.mm();
    // At half a diameter the inside has no radius left.
    (ratio.is_finite() && ratio > 2.0).then(|| ((ratio - 1.0) / (ratio - 2.0), (ratio + 1.0) / (ratio + 2.0)))
}

/// Stretch of the outer fibre, OD/2R (W08), as a share.
pub fn outer_stretch(od: Length, clr: Length) -> f64 {
    od.mm() / (2.0 * clr.mm())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use approx::assert_abs_diff_eq;

    fn thinning(rule: WallRule, diameters: f64) -> f64 {
        let od = Length::from_mm(50.8);
        rule.figure(od, Length::from_mm(1.5), od * diameters).unwrap().thinning * 100.0
    }

    #[test]
    fn tema_factors_as_quoted() {
        // TEMA RCB-2.31: factors at 1D..5D.
        for (diameters, factor) in [(1.0, 1.25), (1.5, 1.1667), (2.0, 1.125), (3.0, 1.0833), (4.0, 1.0625), (5.0, 1.05)]
        {
            assert_abs_diff_eq!(
                1.0 / (1.0 - thinning(WallRule::TubeExchanger, diameters) / 100.0),
                factor,
                epsilon = 5e-5
            );
        }
        // A published U-tube report: D 18, R 48 mm, factor 1.09375.
        let figure = WallRule::TubeExchanger
            .figure(Length::from_mm(18.0), Length::from_mm(1.09375), Length::from_mm(48.0))
            .unwrap();
        assert_abs_diff_eq!(figure.outside.mm(), 1.0, epsilon = 1e-12);
    }

    #[test]
    fn power_piping_thinning_as_tabled() {
        // ASME B31.1 table 102.4.5: 1.06, 1.08, 1.14, 1.25 at 6, 5, 4, 3 diameters.
        for (diameters, percent) in [(6.0, 5.66), (5.0, 7.41), (4.0, 12.28), (3.0, 20.0), (9.0, 5.66)] {
            assert_abs_diff_eq!(thinning(WallRule::PowerPiping, diameters), percent, epsilon = 5e-3);
        }
        // Between the rows it is interpolated.
        assert_abs_diff_eq!(ordering_factor(3.5), 1.195, epsilon = 1e-12);
    }

    #[test]
    fn radius_ratio_as_published() {
        // Tool-maker's page "Pt = ( Ro - R ) / Ro".
        for (diameters, percent) in
            [(1.0, 33.33), (1.5, 25.0), (2.0, 20.0), (2.5, 16.67), (3.0, 14.29), (4.0, 11.11), (5.0, 9.09)]
        {
            assert_abs_diff_eq!(thinning(WallRule::RadiusRatio, diameters), percent, epsilon = 5e-3);
        }
        let figure =
            WallRule::RadiusRatio.figure(Length::from_mm(50.8), Length::from_mm(1.5), Length::from_mm(76.2)).unwrap();
        assert_abs_diff_eq!(figure.outside.mm(), 1.125, epsilon = 1e-12);
    }

    #[test]
    fn free_hoop_as_derived() {
        // Plasticity text-book result, from memory; the percentages are arithmetic.
        for (diameters, out, within) in [
            (1.0, 18.35, 41.4),
            (1.5, 13.40, 22.5),
            (2.0, 10.56, 15.5),
            (3.0, 7.42, 9.5),
            (4.0, 5.72, 6.9),
            (5.0, 4.65, 5.4),
        ] {
            assert_abs_diff_eq!(thinning(WallRule::FreeHoop, diameters), out, epsilon = 6e-3);
            let od = Length::from_mm(60.3);
            let figure = WallRule::FreeHoop.figure(od, Length::from_mm(2.0), od * diameters).unwrap();
            assert_abs_diff_eq!((figure.inside.unwrap().mm() / 2.0 - 1.0) * 100.0, within, epsilon = 6e-2);
        }
    }

    #[test]
    fn outer_stretch_as_published() {
        // scribd 434459819 "Pe = ( Ro / R ) - 1".
        for (diameters, percent) in [(1.0, 50.0), (1.5, 33.33), (2.0, 25.0), (3.0, 16.67), (4.0, 12.5), (5.0, 10.0)] {
            let od = Length::from_mm(50.8);
            assert_abs_diff_eq!(outer_stretch(od, od * diameters) * 100.0, percent, epsilon = 5e-3);
        }
    }

    #[test]
    fn a_radius_that_folds_the_inside_has_no_figure() {
        let od = Length::from_mm(50.8);
        assert_eq!(WallRule::FreeHoop.figure(od, Length::from_mm(1.5), od / 2.0), None);
    }
}
