//! The tube that is bent.

use std::borrow::Cow;

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, Refusal, Told};

use super::guarded::{Guard, Guarded};
use super::text::harmless;

/// How the tube's wall is closed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Seam {
    /// Rolled from strip and welded along its length.
    #[default]
    Welded,
    /// Drawn or extruded without a seam.
    Seamless,
}

/// A round tube of one material, behind its guard.
pub type Tube = Guarded<TubeFigures>;

/// What is to be known of a tube.
#[derive(Clone, Debug, PartialEq)]
pub struct TubeFigures {
    /// Outside diameter.
    pub od: Length,
    /// Wall thickness.
    pub wall: Length,
    /// Material by its trade name, such as `304 stainless`.
    pub material: String,
    /// Welded or seamless.
    pub seam: Seam,
}

impl Guard for TubeFigures {
    /// Refuses an outside diameter that is not between 1 and 2000 mm and a wall that is not between
    /// 0.05 mm and just under half the outside diameter.
    fn guard(&mut self) -> Result<(), Refusal> {
        let Self { od, wall, .. } = *self;
        if !(od >= Tube::SMALLEST_OD && od <= Tube::LARGEST_OD) {
            let may_be = Told::from("from ").and_length(Tube::SMALLEST_OD).and(" to ").and_length(Tube::LARGEST_OD);
            return Err(Refusal::new("the outside diameter", od, may_be));
        }
        if !(wall >= Tube::SMALLEST_WALL && wall < od / 2.0) {
            let may_be = Told::from("from ").and_length(Tube::SMALLEST_WALL);
            let half = " to less than half the outside diameter (";
            return Err(Refusal::new("the wall", wall, may_be.and(half).and_length(od / 2.0).and(")")));
        }
        if let Cow::Owned(material) = harmless(&self.material) {
            self.material = material;
        }
        Ok(())
    }
}

impl Default for Tube {
    /// The one that is taken where nobody has said any: 50.8 × 1.5 mm.
    fn default() -> Self {
        let (od, wall) = (Length::from_mm(50.8), Length::from_mm(1.5));
        Self::known(TubeFigures { od, wall, material: Self::USUAL_MATERIAL.into(), seam: Seam::Welded })
    }
}

impl Tube {
    /// The material that is assumed where none is named.
    pub const USUAL_MATERIAL: &'static str = "304 stainless";
    /// The smallest outside diameter that is accepted.
    const SMALLEST_OD: Length = Length::from_mm(1.0);
    /// The largest outside diameter that is accepted.
    pub const LARGEST_OD: Length = Length::from_mm(2000.0);
    /// The smallest wall that is accepted.
    const SMALLEST_WALL: Length = Length::from_mm(0.05);

    /// Takes a tube's sizes.
    ///
    /// # Errors
    /// Refuses an outside diameter that is not between 1 and 2000 mm and a wall that is not between
    /// 0.05 mm and just under half the outside diameter.
    pub fn new(od: Length, wall: Length, material: impl Into<String>, seam: Seam) -> Result<Self, Refusal> {
        TubeFigures { od, wall, material: material.into(), seam }.sound()
    }

    /// A welded tube of the usual material.
    ///
    /// # Errors
    /// Those of [`Self::new`].
    pub fn usual(od: Length, wall: Length) -> Result<Self, Refusal> {
        Self::new(od, wall, Self::USUAL_MATERIAL, Seam::Welded)
    }

    /// A tube of the same sizes, of another material.
    #[must_use]
    pub fn of_material(&self, material: &str) -> Self {
        let figures = TubeFigures::clone(self);
        Self::known(TubeFigures { material: harmless(material).into_owned(), ..figures })
    }

    /// The same tube welded, or without a seam.
    #[must_use]
    pub fn closed_by(&self, seam: Seam) -> Self {
        Self::known(TubeFigures { seam, ..TubeFigures::clone(self) })
    }

    /// Outside diameter and wall as they are said, such as `60.3 × 2 mm` or `2 × 0.065 in`.
    pub fn size(&self, unit: LengthUnit) -> String {
        let od = unit.bare(self.od.mm()).to_string();
        let wall = unit.bare_finely(self.wall.mm()).to_string();
        format!("{} × {} {}", plain(&od), plain(&wall), unit.symbol())
    }
}

/// A number without zeros at the end of its decimals.
fn plain(decimal: &str) -> &str {
    decimal.trim_end_matches('0').trim_end_matches('.')
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn sizes_are_said_in_the_unit() {
        let tube = |od, wall| Tube::usual(Length::from_mm(od), Length::from_mm(wall)).unwrap();
        assert_eq!(tube(60.3, 2.0).size(LengthUnit::Millimetre), "60.3 × 2 mm");
        assert_eq!(tube(100.0, 1.65).size(LengthUnit::Millimetre), "100 × 1.65 mm");
        assert_eq!(tube(50.8, 1.651).size(LengthUnit::Inch), "2 × 0.065 in");
        assert_eq!(tube(60.3, 2.0).size(LengthUnit::Inch), "2.374 × 0.0787 in");
    }
}
