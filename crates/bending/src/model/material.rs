//! Materials: the figures bending needs, each with its source, contradictions and all.

use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Length, Refusal};

pub use super::ground::Certainty;
use super::guarded::{Guard, Guarded};
use super::text::harmless;
use super::tube::Tube;

/// One figure of a material with where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The value, in the unit of its property.
    pub value: f64,
    /// How sure it is.
    pub certainty: Certainty,
    /// The source, and what kind of figure it is: minimum, typical, which standard.
    pub source: String,
}

/// Mean expansion over a temperature range.
#[derive(Clone, Debug, PartialEq)]
pub struct Expansion {
    /// Start of the range, °C.
    pub from_c: f64,
    /// End of the range, °C.
    pub to_c: f64,
    /// Mean coefficient over the range, 1e-6 per kelvin, with its source.
    pub per_million_kelvin: Figure,
}

/// A material, behind its guard. Every property lists all figures known, the one that is used first, so that
/// contradictions between sources stay visible.
pub type Material = Guarded<MaterialFigures>;

/// What is to be known of a material.
#[derive(Clone, Debug, PartialEq)]
pub struct MaterialFigures {
    /// Its trade name, as a tube names it. Unique in a library.
    pub name: String,
    /// Other names it goes by.
    pub also: Vec<String>,
    /// Young's modulus, GPa.
    pub modulus_gpa: Vec<Figure>,
    /// 0.2 % proof or yield stress, MPa.
    pub yield_mpa: Vec<Figure>,
    /// Tensile strength, MPa.
    pub tensile_mpa: Vec<Figure>,
    /// Elongation at break, percent.
    pub elongation_percent: Vec<Figure>,
    /// Density, g/cm³.
    pub density: Vec<Figure>,
    /// Expansion, by temperature range.
    pub expansion: Vec<Expansion>,
}

/// The least that any property of a metal is, in its unit: far below what is bent, so that a slip of the pen is seen.
const LEAST: f64 = 0.001;

impl Guard for MaterialFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        let name = harmless(&self.name).into_owned();
        let expansion: Vec<Figure> = self.expansion.iter().map(|range| range.per_million_kelvin.clone()).collect();
        // Some times what the stiffest, strongest, most ductile and heaviest of all matter is; from memory.
        for (property, figures, most, unit) in [
            ("the modulus", &self.modulus_gpa, 5_000.0, "GPa"),
            ("the yield stress", &self.yield_mpa, 20_000.0, "MPa"),
            ("the tensile strength", &self.tensile_mpa, 20_000.0, "MPa"),
            ("the elongation", &self.elongation_percent, 10_000.0, "%"),
            ("the density", &self.density, 50.0, "g/cm³"),
            ("the expansion", &expansion, 10_000.0, "millionths per kelvin"),
        ] {
            let field = || format!("{property} of \"{name}\"");
            if figures.is_empty() && property != "the expansion" {
                return Err(Refusal::new(field(), "an empty list", "a list of at least one figure"));
            }
            if let Some(wrong) = figures.iter().find(|figure| !(LEAST..=most).contains(&figure.value)) {
                let may_be = format!("from {LEAST} to {most} {unit}");
                return Err(Refusal::new(field(), format_any(wrong.value), may_be));
            }
        }
        let is_range =
            |range: &&Expansion| range.from_c < range.to_c && range.from_c >= COLDEST_C && range.to_c <= HOTTEST_C;
        if let Some(wrong) = self.expansion.iter().find(|range| !is_range(range)) {
            let was = format!("{} to {} °C", format_any(wrong.from_c), format_any(wrong.to_c));
            let may_be = format!("from a lower to a higher temperature, {COLDEST_C} °C to {HOTTEST_C} °C");
            return Err(Refusal::new(format!("a range of expansion of \"{name}\""), was, may_be));
        }
        self.name = name;
        for other in &mut self.also {
            *other = harmless(other).into_owned();
        }
        Ok(())
    }
}

/// Nothing is colder.
const COLDEST_C: f64 = -273.15;
/// Every metal boils below this; from memory.
const HOTTEST_C: f64 = 10_000.0;

impl Material {
    /// Whether the material goes by that name, in whatever case.
    pub fn is_called(&self, name: &str) -> bool {
        let name = name.trim();
        self.name.eq_ignore_ascii_case(name) || self.also.iter().any(|other| other.eq_ignore_ascii_case(name))
    }
}

/// Mass of one metre of tube, kg, for a density in g/cm³: π ρ (D − t) t (Z08).
pub fn mass_per_metre(tube: &Tube, density: f64) -> f64 {
    std::f64::consts::PI * density * (tube.od - tube.wall).mm() * tube.wall.mm() / 1000.0
}

/// Mass of a length of tube, kg, for a density in g/cm³.
pub fn mass(tube: &Tube, density: f64, length: Length) -> f64 {
    mass_per_metre(tube, density) * length.mm() / 1000.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::Seam;
    use approx::assert_abs_diff_eq;

    fn kilograms(od: f64, wall: f64, density: f64) -> f64 {
        let tube = Tube::new(Length::from_mm(od), Length::from_mm(wall), "steel", Seam::Welded).unwrap();
        mass_per_metre(&tube, density)
    }

    #[test]
    fn masses_as_published() {
        // Tube maker's mass tables (inoxcngroup.com; scribd 358775155): 57x3.5 at 7.93, 75x1.0 at 7.85.
        assert_abs_diff_eq!(kilograms(57.0, 3.5, 7.93), 4.66, epsilon = 5e-3);
        assert_abs_diff_eq!(kilograms(75.0, 1.0, 7.85), 1.825, epsilon = 5e-4);
        // Arithmetic: 50.8x1.5 at four densities.
        for (density, expected) in [(7.85, 1.824), (7.90, 1.835), (7.93, 1.842), (8.00, 1.859)] {
            assert_abs_diff_eq!(kilograms(50.8, 1.5, density), expected, epsilon = 6e-4);
        }
        for (od, wall, expected) in [
            (38.1, 1.5, 1.368),
            (60.3, 1.5, 2.197),
            (63.5, 1.5, 2.317),
            (76.2, 1.6, 2.974),
            (88.9, 2.0, 4.330),
            (101.6, 2.0, 4.963),
        ] {
            assert_abs_diff_eq!(kilograms(od, wall, 7.93), expected, epsilon = 1e-3);
        }
    }

    #[test]
    fn pipe_masses_by_the_density_of_carbon_steel() {
        // ASTM A312 table (scribd 190333589) prints stainless pipe with 7.85, about 1 % low.
        for (od, wall, expected) in [
            (33.40, 1.66, 1.30),
            (42.16, 1.66, 1.66),
            (48.26, 2.77, 3.11),
            (60.33, 2.77, 3.93),
            (88.90, 2.11, 4.52),
            (114.30, 2.11, 5.84),
        ] {
            assert_abs_diff_eq!(kilograms(od, wall, 7.85), expected, epsilon = 6e-3);
        }
    }

    #[test]
    fn pounds_per_foot_by_the_published_factors() {
        let pounds_per_foot =
            |od: f64, wall: f64, density: f64| kilograms(od * 25.4, wall * 25.4, density) * 0.3048 / 0.453_592_37;
        // ASTM A554 list (ecer.com), factor 10.68 for carbon steel, which is 0.2833 lb/in3.
        let carbon = 10.68 / (12.0 * std::f64::consts::PI) * 27.679_904_7;
        for (od, wall, expected) in
            [(1.0, 0.065, 0.649), (1.5, 0.065, 0.996), (2.0, 0.049, 1.021), (2.5, 0.049, 1.283), (4.0, 0.065, 2.730)]
        {
            assert_abs_diff_eq!(pounds_per_foot(od, wall, carbon), expected, epsilon = 2e-3);
        }
        // 316 chart (pressuretubemfg.com), 10.933 t (D - t), 0.290 lb/in3.
        let stainless = 10.933 / (12.0 * std::f64::consts::PI) * 27.679_904_7;
        for (od, wall, expected) in [
            (0.375, 0.035, 0.1301),
            (0.5, 0.035, 0.1779),
            (0.5, 0.049, 0.2416),
            (0.75, 0.065, 0.4868),
            (0.75, 0.083, 0.6053),
        ] {
            assert_abs_diff_eq!(pounds_per_foot(od, wall, stainless), expected, epsilon = 1e-4);
        }
    }
}
