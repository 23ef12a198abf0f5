//! Mandrel and wiper: a starting point, no more. The tool-maker's chart for your machine goes before it.

use elbowroom_geometry::Length;

use super::difficulty::{bend_diameters, wall_factor};
use super::metal::Metal;
use crate::model::ground::Ground;
use crate::model::material::Material;

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

/// Figures of one size count as equal within this share: tubes are sold by rounded sizes.
const SAME_SHARE: f64 = 1.0 + 1e-3;

/// No mandrel is made with a nose thinner than this: its rod would give way before the tube does. Common practice, no
/// source.
pub const LEAST_NOSE: Length = Length::from_mm(5.0);

/// Where the chart of balls and wiper comes from.
pub const CHART: &str = "a few points of trade charts, from memory";

/// Where it comes from what they should be made of.
pub const MADE_OF: &str = "tool-makers' pages";

/// Nose diameter of the mandrel, OD − 2.21 t for a single wall (M04). `None` where no mandrel fits the bore.
pub fn nose(od: Length, wall: Length) -> Option<Length> {
    Some(od - wall * 2.21).filter(|nose| *nose >= LEAST_NOSE)
}

/// Bore of the tube.
pub fn bore(od: Length, wall: Length) -> Length {
    od - wall * 2.0
}

/// Mandrel and balls to start with, by wall factor and D of bend. Known are a few points of trade charts, from memory
/// (M10); between them the next harder one is taken. Charts assume mild steel bent to 180° (M02).
pub fn balls(od: Length, wall: Length, clr: Length) -> Advice {
    let (factor, diameters) = (wall_factor(od, wall), bend_diameters(od, clr) * SAME_SHARE);
    let text = if nose(od, wall).is_none() {
        "none: no mandrel fits the bore"
    } else if factor < 20.0 && diameters >= 2.5 {
        "none: a plug mandrel or no mandrel"
    } else if factor <= 40.0 && diameters >= 2.0 {
        "1 or 2, regular pitch"
    } else if factor <= 50.0 && diameters >= 1.5 {
        "2 or 3, regular pitch"
    } else if factor <= 60.0 && diameters >= 1.5 {
        "3 or more, close pitch"
    } else {
        "4 or more, close pitch"
    };
    Advice { text, ground: Ground::Memory }
}

/// Whether to start with a wiper die: from a wall factor of about 30 on at two diameters and tighter,
/// from memory of trade charts (M10).
pub fn wiper(od: Length, wall: Length, clr: Length) -> Advice {
    let is_wanted = wall_factor(od, wall) >= 30.0 && bend_diameters(od, clr) <= 2.0 * SAME_SHARE;
    let text = if is_wanted {
        "wanted: set its tip just short of the tangent point, and rake it as its maker says"
    } else {
        "probably not needed; fit one if the inside wrinkles"
    };
    Advice { text, ground: Ground::Memory }
}

/// What mandrel and wiper should be made of for a material (M07, M08): by the family that its name tells, else by its
/// density; `None` where neither tells.
pub fn made_of(name: &str, known: Option<&Material>) -> Option<Advice> {
    let is_light = match Metal::of(name, known) {
        Metal::Aluminium => true,
        Metal::Stainless | Metal::Steel | Metal::Titanium => false,
        Metal::Unknown => known?.density.first()?.value < LIGHT_ALLOY,
    };
    let text = if is_light {
        "chromed steel: aluminium bronze galls on aluminium"
    } else {
        "aluminium bronze: it wears, but does not gall"
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
        assert_eq!(start(15.0, 2.5), "none: a plug mandrel or no mandrel");
        for factor in [20.0, 30.0, 40.0] {
            assert_eq!(start(factor, 2.0), "1 or 2, regular pitch", "{factor}");
        }
        for factor in [30.0, 40.0, 50.0] {
            assert_eq!(start(factor, 1.5), "2 or 3, regular pitch", "{factor}");
        }
        assert_eq!(start(55.0, 1.5), "3 or more, close pitch");
        for diameters in [1.0, 1.5] {
            assert_eq!(start(70.0, diameters), "4 or more, close pitch");
        }
    }

    #[test]
    fn a_wiper_from_a_wall_factor_of_thirty_at_two_diameters() {
        let wiped = |factor: f64, diameters: f64| {
            let od = Length::from_mm(60.0);
            wiper(od, od / factor, od * diameters).text.starts_with("wanted")
        };
        assert!(wiped(34.0, 1.5) && wiped(31.0, 2.0));
        assert!(!wiped(29.0, 1.5) && !wiped(34.0, 2.5));
    }

    #[test]
    fn nose_by_the_published_formula_or_none_at_all() {
        let mm = Length::from_mm;
        // scribd 434459819 "Md = T - ( W x 2.21 )": 47.485 in a bore of 47.8.
        assert!((nose(mm(50.8), mm(1.5)).unwrap().mm() - 47.485).abs() < 1e-9);
        assert!((bore(mm(50.8), mm(1.5)).mm() - 47.8).abs() < 1e-9);
        // By the formula alone -6.22 mm in a bore of 0.1 mm.
        for (od, wall) in [(60.3, 30.1), (60.3, 27.3), (12.0, 4.0), (4.0, 1.0), (1.0, 0.05)] {
            assert_eq!(nose(mm(od), mm(wall)), None, "{od} × {wall}");
            assert!(balls(mm(od), mm(wall), mm(od * 2.0)).text.contains("no mandrel fits"));
        }
    }

    #[test]
    fn aluminium_is_not_bent_on_bronze() {
        // Tool-makers' pages: aluminium bronze for steel, stainless, titanium; chromed steel for aluminium.
        let text = |name: &str, known: Option<&Material>| made_of(name, known).map(|advice| advice.text);
        for (name, starts) in [
            ("304 stainless", "aluminium bronze"),
            ("aluminised steel", "aluminium bronze"),
            ("titanium grade 2", "aluminium bronze"),
            ("6061-T4 aluminium", "chromed"),
        ] {
            assert!(text(name, None).unwrap().starts_with(starts), "{name}");
        }
        let mut material = specimen::stainless();
        specimen::change(&mut material, |metal| (metal.name, metal.also) = ("a metal".into(), Vec::new()));
        for (density, starts) in [(7.9, "aluminium bronze"), (4.51, "aluminium bronze"), (2.7, "chromed")] {
            specimen::change(&mut material, |metal| metal.density[0].value = density);
            assert!(text("a metal", Some(&material)).unwrap().starts_with(starts), "{density}");
        }
        assert_eq!(text("unobtainium", None), None);
    }
}
