//! How far a finished part may stray.

use elbowroom_geometry::{Angle, LARGEST_MM, Length, Refusal, Told};

/// How far a finished part may stray.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// Of a bend angle or a rotation.
    pub angle: Angle,
    /// Of a straight and of a measured point.
    pub length: Length,
}

impl Tolerance {
    /// The published default for a part of `bends` bends in tube of outside diameter `od`: ±1° on a part
    /// of one bend, ±1.5° on more up to 2.5 in, ±2° above (C09, a fabricator's design procedure). The
    /// length, ±2 mm, is common practice, no source.
    pub fn usual(bends: usize, od: Length) -> Self {
        let degrees = match bends {
            0 | 1 => 1.0,
            _ if od.mm() <= 63.5 => 1.5,
            _ => 2.0,
        };
        Self { angle: Angle::from_degrees(degrees), length: Length::from_mm(2.0) }
    }
}

/// What a person has chosen of it; the rest is usual.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ToleranceChoice {
    angle: Option<Angle>,
    length: Option<Length>,
}

impl ToleranceChoice {
    /// A choice of an angle, of a length, of both or of neither.
    ///
    /// # Errors
    /// Refuses an angle that is not more than 0 and up to half a turn, and a length that is not more than 0.
    pub fn new(angle: Option<Angle>, length: Option<Length>) -> Result<Self, Refusal> {
        let sound = |angle: Angle| angle.is_finite() && angle > Angle::ZERO && angle <= Angle::HALF_TURN;
        if let Some(angle) = angle.filter(|angle| !sound(*angle)) {
            let was = format!("{}°", angle.degrees());
            return Err(Refusal::new("the tolerance of angles", was, "more than 0° and up to 180°"));
        }
        let sound = |length: Length| length.is_finite() && length > Length::ZERO && length.mm() <= LARGEST_MM;
        if let Some(length) = length.filter(|length| !sound(*length)) {
            let may_be = Told::from("more than ").and_length(Length::ZERO);
            return Err(Refusal::new("the tolerance of lengths", length, may_be));
        }
        Ok(Self { angle: angle.map(Angle::storable), length })
    }

    /// Whether anything was chosen.
    pub const fn is_own(self) -> bool {
        self.angle.is_some() || self.length.is_some()
    }

    /// The angle that was chosen.
    pub const fn angle(self) -> Option<Angle> {
        self.angle
    }

    /// The length that was chosen.
    pub const fn length(self) -> Option<Length> {
        self.length
    }

    /// This choice, and what it leaves open by another one.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self { angle: self.angle.or(other.angle), length: self.length.or(other.length) }
    }

    /// The tolerance: what is chosen, and what is usual for the rest.
    pub fn over(self, usual: Tolerance) -> Tolerance {
        Tolerance { angle: self.angle.unwrap_or(usual.angle), length: self.length.unwrap_or(usual.length) }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn what_is_no_tolerance_is_refused_in_words() {
        for degrees in [0.0, -1.0, 180.1, f64::NAN, f64::INFINITY] {
            let refused = ToleranceChoice::new(Some(Angle::from_degrees(degrees)), None).unwrap_err().to_string();
            assert!(refused.contains("the tolerance of angles") && refused.contains("more than 0°"), "{refused}");
        }
        for mm in [0.0, -0.5, 1e9, f64::NAN, f64::INFINITY] {
            let refused = ToleranceChoice::new(None, Some(Length::from_mm(mm))).unwrap_err().to_string();
            assert!(refused.contains("the tolerance of lengths") && refused.contains("more than 0 mm"), "{refused}");
        }
    }

    #[test]
    fn what_is_not_chosen_is_usual() {
        let (usual, length) = (Tolerance::usual(3, Length::from_mm(76.2)), Length::from_mm(0.5));
        let own = ToleranceChoice::new(None, Some(length)).unwrap();
        assert_eq!(own.over(usual), Tolerance { length, ..usual });
        let angle = Angle::from_degrees(0.25);
        let both = ToleranceChoice::new(Some(angle), Some(Length::from_mm(9.0))).unwrap();
        assert_eq!(own.or(both).over(usual), Tolerance { angle, length });
        assert!(own.is_own() && !ToleranceChoice::default().is_own());
    }
}
