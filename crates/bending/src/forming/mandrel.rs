//! Mandrel and wiper: a starting point, no more. The tool-maker's chart for your machine goes before it.

use elbowroom_geometry::Length;

use super::difficulty::{bend_diameters, wall_factor};
use super::ground::Ground;
use crate::material::Material;

/// A piece of advice and what it rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Advice {
    /// What to start with.
    pub text: &'static str,
    /// What it rests on.
    pub ground: Ground,
}

/// Metals below this density, g/cm³, are light alloys: aluminium is 2.7, titanium 4.5.
const LIGHT_ALLOY: f64 = 3.5;

/// Mandrel and balls to start with, by wall factor and D of bend. Read between the few points of trade
/// charts that are known, from memory (M10); charts assume mild steel bent to 180° (M02).
pub fn balls(od: Length, wall: Length, clr: Length) -> Advice {
    let (factor, diameters) = (wall_factor(od, wall), bend_diameters(od, clr));
    let text = match (factor, diameters) {
        (factor, diameters) if factor < 20.0 && diameters >= 2.5 => "a plug mandrel, or none",
        (factor, diameters) if factor > 60.0 && diameters <= 1.5 => "4 balls or more, close pitch",
        (factor, _) if factor > 60.0 => "3 balls or more, close pitch",
        (factor, diameters) if factor >= 30.0 && diameters < 2.0 => "2 to 3 balls",
        (factor, _) if factor > 40.0 => "2 to 3 balls",
        (factor, diameters) if factor < 20.0 && diameters >= 1.5 => "a plug mandrel, or 1 ball",
        _ => "1 to 2 balls",
    };
    Advice { text, ground: Ground::Memory }
}

/// Whether to start with a wiper die: from a wall factor of about 30 on at two diameters and tighter,
/// from memory of trade charts (M10).
pub fn wiper(od: Length, wall: Length, clr: Length) -> Advice {
    let is_needed = wall_factor(od, wall) > 30.0 && bend_diameters(od, clr) <= 2.0;
    let text = if is_needed { "yes, against wrinkles on the inside" } else { "not as a rule; if it wrinkles" };
    Advice { text, ground: Ground::Memory }
}

/// What mandrel and wiper should be made of for a material (M07, M08); `None` where the density of the
/// material, by which it is told from aluminium, is not known.
pub fn made_of(material: &Material) -> Option<Advice> {
    let density = material.density.first()?.value;
    let text = if density < LIGHT_ALLOY {
        "chromed or hardened steel: aluminium bronze galls on aluminium"
    } else {
        "aluminium bronze: it wears to fines and does not gall"
    };
    Some(Advice { text, ground: Ground::Published })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen;

    fn start(factor: f64, diameters: f64) -> &'static str {
        let od = Length::from_mm(60.0);
        balls(od, od / factor, od * diameters).text
    }

    #[test]
    fn the_known_points_of_the_charts() {
        // Trade charts, from memory, plausibility only.
        assert_eq!(start(15.0, 2.5), "a plug mandrel, or none");
        for factor in [20.0, 30.0, 40.0] {
            assert_eq!(start(factor, 2.0), "1 to 2 balls", "{factor}");
        }
        for factor in [30.0, 40.0, 50.0] {
            assert_eq!(start(factor, 1.5), "2 to 3 balls", "{factor}");
        }
        for diameters in [1.0, 1.5] {
            assert_eq!(start(70.0, diameters), "4 balls or more, close pitch");
        }
    }

    #[test]
    fn a_wiper_from_a_wall_factor_of_thirty_at_two_diameters() {
        let wiped = |factor: f64, diameters: f64| {
            let od = Length::from_mm(60.0);
            wiper(od, od / factor, od * diameters).text.starts_with("yes")
        };
        assert!(wiped(34.0, 1.5) && wiped(31.0, 2.0));
        assert!(!wiped(29.0, 1.5) && !wiped(34.0, 2.5));
    }

    #[test]
    fn aluminium_is_not_bent_on_bronze() {
        // Tool-makers' pages: aluminium bronze for steel, stainless, titanium; chromed steel for aluminium.
        let mut material = specimen::stainless();
        assert!(made_of(&material).unwrap().text.starts_with("aluminium bronze"));
        material.density[0].value = 4.51;
        assert!(made_of(&material).unwrap().text.starts_with("aluminium bronze"));
        material.density[0].value = 2.70;
        assert!(made_of(&material).unwrap().text.starts_with("chromed"));
        material.density.clear();
        assert_eq!(made_of(&material), None);
    }
}
