//! The tube that is bent.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, Refusal, Told};

/// How the tube's wall is closed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Seam {
    /// Rolled from strip and welded along its length.
    #[default]
    Welded,
    /// Drawn or extruded without a seam.
    Seamless,
}

/// A round tube of one material.
#[derive(Clone, Debug, PartialEq)]
pub struct Tube {
    /// Outside diameter.
    pub od: Length,
    /// Wall thickness.
    pub wall: Length,
    /// Material by its trade name, such as `304 stainless`.
    pub material: String,
    /// Welded or seamless.
    pub seam: Seam,
}

impl Tube {
    /// The material that is assumed where none is named.
    pub const USUAL_MATERIAL: &'static str = "304 stainless";
    /// The largest outside diameter that is accepted.
    pub const LARGEST_OD: Length = Length::from_mm(2000.0);

    /// Takes a tube's sizes.
    ///
    /// # Errors
    /// Refuses an outside diameter that is not between 1 and 2000 mm and a wall that is not between
    /// 0.05 mm and just under half the outside diameter.
    pub fn new(od: Length, wall: Length, material: impl Into<String>, seam: Seam) -> Result<Self, Refusal> {
        if !(od.is_finite() && od.mm() >= 1.0 && od <= Self::LARGEST_OD) {
            let may_be = Told::from("from ").and_length(Length::from_mm(1.0)).and(" to ").and_length(Self::LARGEST_OD);
            return Err(Refusal::new("the outside diameter", od, may_be));
        }
        if !(wall.is_finite() && wall.mm() >= 0.05 && wall.mm() < od.mm() / 2.0) {
            let may_be = Told::from("from ").and_length(Length::from_mm(0.05));
            let half = " to less than half the outside diameter (";
            let may_be = may_be.and(half).and_length(od * 0.5).and(")");
            return Err(Refusal::new("the wall", wall, may_be));
        }
        Ok(Self { od, wall, material: material.into(), seam })
    }

    /// A welded tube of the usual material.
    pub fn usual(od: Length, wall: Length) -> Self {
        Self { od, wall, material: Self::USUAL_MATERIAL.into(), seam: Seam::Welded }
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
    use super::*;

    #[test]
    fn sizes_are_said_in_the_unit() {
        let tube = |od, wall| Tube {
            od: Length::from_mm(od),
            wall: Length::from_mm(wall),
            material: String::new(),
            seam: Seam::Seamless,
        };
        assert_eq!(tube(60.3, 2.0).size(LengthUnit::Millimetre), "60.3 × 2 mm");
        assert_eq!(tube(100.0, 1.65).size(LengthUnit::Millimetre), "100 × 1.65 mm");
        assert_eq!(tube(50.8, 1.651).size(LengthUnit::Inch), "2 × 0.065 in");
        assert_eq!(tube(60.3, 2.0).size(LengthUnit::Inch), "2.374 × 0.0787 in");
    }
}
