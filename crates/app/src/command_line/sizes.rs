//! Sizes as they are typed on the command line.

use elbowroom_bending::surrounding::guard_clearance;
use elbowroom_bending::{ClampLength, Shop, Tube};
use elbowroom_geometry::units::{EntryError, LengthUnit, parse_angle, parse_length};
use elbowroom_geometry::{Angle, Length};

/// A tube's size: outside diameter and wall, as those of a welded tube of the usual material.
#[derive(Clone, Debug, PartialEq)]
pub struct TubeSize(Tube);

/// Reads `ODxWALL`, such as `60.3x2`, `2inx16swg` or `60.3 × 2.0 mm`. A number without a unit is mm.
pub fn tube_size(text: &str) -> Result<TubeSize, String> {
    let right = "write outside diameter x wall in mm, such as 60.3x2";
    let Some((od, wall)) = text.split_once(['x', 'X', '×', '*']) else {
        return Err(format!("there is no x between outside diameter and wall; {right}"));
    };
    let read = |name: &str, text: &str| {
        parse_length(text, LengthUnit::Millimetre)
            .map_err(|error| format!("{name} \"{text}\": {}; {right}", said(&error)))
    };
    let (od, wall) = (read("the outside diameter", od.trim())?, read("the wall", wall.trim())?);
    Tube::usual(od, wall).map(TubeSize).map_err(|refusal| format!("{refusal}; {right}"))
}

/// Reads the length of a clamp. A number without a unit is mm.
pub fn clamp_length(text: &str) -> Result<ClampLength, String> {
    let right = "write its length in mm, such as 80";
    let length = parse_length(text, LengthUnit::Millimetre).map_err(|error| format!("{}; {right}", said(&error)))?;
    ClampLength::new(length).map_err(|refusal| format!("{refusal}; {right}"))
}

/// Reads how far a length may stray. A number without a unit is mm.
pub fn length_tolerance(text: &str) -> Result<Length, String> {
    let right = "write it in mm, such as 2";
    let length = parse_length(text, LengthUnit::Millimetre).map_err(|error| format!("{}; {right}", said(&error)))?;
    if length.is_finite() && length > Length::ZERO {
        return Ok(length);
    }
    Err(format!("a tolerance is more than 0 mm; {right}"))
}

/// Reads how far a tube keeps clear of something. A number without a unit is mm.
pub fn clearance(text: &str) -> Result<Length, String> {
    let right = "write it in mm, such as 25";
    let length = parse_length(text, LengthUnit::Millimetre).map_err(|error| format!("{}; {right}", said(&error)))?;
    guard_clearance("the clearance", length).map_err(|refusal| format!("{refusal}; {right}"))
}

/// Reads how far an angle may stray. A number without a unit is degrees.
pub fn angle_tolerance(text: &str) -> Result<Angle, String> {
    let right = "write it in degrees, such as 1.5";
    let angle = parse_angle(text).map_err(|error| format!("{}; {right}", said(&error)))?;
    if angle.is_finite() && angle > Angle::ZERO {
        return Ok(angle);
    }
    Err(format!("a tolerance is more than 0°; {right}"))
}

fn said(error: &EntryError) -> String {
    error.to_string()
}

impl TubeSize {
    /// The tube of this size: the first one that the shop keeps, for its material and seam, else a welded
    /// one of the usual material.
    pub fn kept_by(&self, shop: &Shop) -> Tube {
        let kept = shop.tubes.iter().find(|tube| tube.od == self.0.od && tube.wall == self.0.wall);
        kept.unwrap_or(&self.0).clone()
    }

    /// A tube of this size, of the material and closed like another.
    pub fn in_place_of(&self, tube: &Tube) -> Tube {
        self.0.of_material(&tube.material).closed_by(tube.seam)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn tube_sizes_are_read_in_the_ways_people_write_them() {
        let wanted = TubeSize(Tube::usual(Length::from_mm(60.3), Length::from_mm(2.0)).unwrap());
        for text in ["60.3x2", "60.3x2.0", "60.3 x 2", "60.3×2", "60.3X2mm", "60.3 mm x 2 mm"] {
            assert_eq!(tube_size(text).as_ref(), Ok(&wanted), "{text}");
        }
        let inches = tube_size("2in x 0.065in").unwrap();
        assert!((inches.0.od.mm() - 50.8).abs() < 1e-12 && (inches.0.wall.mm() - 1.651).abs() < 1e-12);
    }

    #[test]
    fn wrong_sizes_say_what_would_be_right() {
        for text in ["60.3", "60.3x", "x2", "axb", "60.3x40", "0x0", "-60x2", "1e999x2", "nanx2", "60.3x2x3"] {
            let said = tube_size(text).unwrap_err();
            assert!(said.contains("such as 60.3x2"), "{text}: {said}");
        }
        for text in ["", "long", "0", "-5", "inf"] {
            let said = clamp_length(text).unwrap_err();
            assert!(said.contains("such as 80"), "{text}: {said}");
        }
    }
}
