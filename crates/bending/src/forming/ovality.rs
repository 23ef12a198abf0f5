//! Ovality: how far from round a bend may be, by each standard that says so. Nothing here predicts it.

use elbowroom_geometry::Length;

use crate::model::ground::Ground;

/// What a standard or a maker allows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OvalityLimit {
    /// Who asks.
    pub who: &'static str,
    /// What is limited, and when.
    pub asks: &'static str,
    /// The limit as a share of the outside diameter.
    pub share: f64,
    /// The limit as the largest diameter less the smallest.
    pub difference: Length,
    /// How sure it is.
    pub ground: Ground,
}

/// Out-of-roundness (D_max − D_min)/D_nominal, as a share (O01).
pub fn of_nominal(largest: Length, smallest: Length, nominal: Length) -> f64 {
    (largest - smallest) / nominal
}

/// Out-of-roundness 2 (D_max − D_min)/(D_max + D_min), as a share (O02, formula from memory of
/// EN 13480-4 7.4.1).
pub fn of_mean(largest: Length, smallest: Length) -> f64 {
    (largest - smallest) * 2.0 / (largest + smallest)
}

/// What each standard allows a bend of outside diameter `od` on centreline radius `clr`.
pub fn limits(od: Length, clr: Length) -> Vec<OvalityLimit> {
    let diameters = clr / od;
    let limit = |who, asks, share, ground| OvalityLimit { who, asks, share, difference: od * share, ground };
    vec![
        limit("TEMA RCB-2.31", "flattening of heat-exchanger U-tubes", 0.10, Ground::Published),
        limit(
            "UFGS 4-159-01, as ASME B31.1",
            "difference of diameters, for 5 diameters and more and heavy walls",
            0.08,
            Ground::Published,
        ),
        limit("ASME B31.3 332.2.1", "flattening under internal pressure", 0.08, Ground::Memory),
        limit("ASME B31.3 332.2.1", "flattening under external pressure", 0.03, Ground::Memory),
        limit("PFI ES-24", "ovality in general", 0.08, Ground::Memory),
        limit("a U-tube maker's rule", "D/5R up to 4 diameters, 5 % beyond", by_radius(diameters), Ground::Published),
        limit(
            "a U-bend maker's table",
            "12 % to 2 diameters, 10 % to 4, 5 % beyond",
            by_table(diameters),
            Ground::Published,
        ),
        limit(
            "aircraft fluid lines (maintenance handbook)",
            "smallest diameter of a flattened part at least 75 % of the original",
            0.25,
            Ground::Published,
        ),
    ]
}

/// D/(5R) up to four diameters, a twentieth beyond (O07).
fn by_radius(diameters: f64) -> f64 {
    if diameters <= 4.0 { 1.0 / (5.0 * diameters) } else { 0.05 }
}

/// By steps (O08).
fn by_table(diameters: f64) -> f64 {
    match diameters {
        tight if tight <= 2.0 => 0.12,
        middling if middling <= 4.0 => 0.10,
        _ => 0.05,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use approx::assert_abs_diff_eq;

    const OD: Length = Length::from_mm(50.8);

    fn share(who: &str, diameters: f64) -> f64 {
        limits(OD, OD * diameters).iter().find(|limit| limit.who == who).unwrap().share * 100.0
    }

    #[test]
    fn both_definitions_agree_where_the_mean_is_the_nominal() {
        // scribd 461944357 "((Max OD-Min OD)/nominal OD)*100"; arithmetic on 51.8 and 49.8 mm.
        let [largest, smallest] = [51.8, 49.8].map(Length::from_mm);
        assert_abs_diff_eq!(of_nominal(largest, smallest, OD) * 100.0, 3.937, epsilon = 5e-4);
        assert_abs_diff_eq!(of_mean(largest, smallest) * 100.0, 3.937, epsilon = 5e-4);
    }

    #[test]
    fn limits_as_published() {
        // tps-technitube.com in-house bending "R=da/5xrm x100": 13.33, 10, 6.67, 5 %.
        for (diameters, percent) in [(1.5, 13.33), (2.0, 10.0), (3.0, 6.67), (4.0, 5.0), (6.0, 5.0)] {
            assert_abs_diff_eq!(share("a U-tube maker's rule", diameters), percent, epsilon = 5e-3);
        }
        // sunnysteel.com: 12 % to 2D, 10 % to 4D, 5 % beyond.
        for (diameters, percent) in [(1.5, 12.0), (2.0, 12.0), (3.0, 10.0), (4.0, 10.0), (4.1, 5.0)] {
            assert_abs_diff_eq!(share("a U-bend maker's table", diameters), percent, epsilon = 1e-9);
        }
        // ASME B31.3 332.2.1, from memory: 8 % and 3 % of 50.8 mm.
        let pressed: Vec<f64> = limits(OD, OD * 1.5)
            .iter()
            .filter(|limit| limit.who.contains("B31.3"))
            .map(|limit| limit.difference.mm())
            .collect();
        assert_abs_diff_eq!(pressed[0], 4.06, epsilon = 5e-3);
        assert_abs_diff_eq!(pressed[1], 1.52, epsilon = 5e-3);
        // UFGS 4-159-01 "shall not exceed 8% of average measured outside diameter": 4.82 mm of 60.3.
        let pipe = Length::from_mm(60.3);
        let limit = limits(pipe, pipe * 5.0).into_iter().find(|limit| limit.who.starts_with("UFGS")).unwrap();
        assert_abs_diff_eq!(limit.difference.mm(), 4.82, epsilon = 5e-3);
    }
}
