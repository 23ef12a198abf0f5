//! Lengths and angles as they stand in a file: millimetres and degrees, exact to the bit.

use std::fmt;

use elbowroom_geometry::{Angle, LARGEST_MM, Length};
use serde::de::{Error, SeqAccess, Visitor};
use serde::ser::SerializeTuple;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A length in a file: a plain number of millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Millimetres(pub f64);

/// An angle in a file: a plain number of degrees.
///
/// About one radian value in ten has no number of degrees that turns into just its bits. Such an angle is
/// a pair: the number of degrees, and the rest that one number cannot hold.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Degrees(pub Angle);

impl From<Length> for Millimetres {
    fn from(length: Length) -> Self {
        Self(length.mm())
    }
}

impl From<Millimetres> for Length {
    fn from(length: Millimetres) -> Self {
        Self::from_mm(length.0)
    }
}

impl Serialize for Millimetres {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.0)
    }
}

impl<'de> Deserialize<'de> for Millimetres {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let value = f64::deserialize(deserializer)?;
        if value.is_finite() && value.abs() <= LARGEST_MM {
            return Ok(Self(value));
        }
        Err(D::Error::custom(format!(
            "{value} is no length; it must be a number from {} to {LARGEST_MM} mm",
            -LARGEST_MM
        )))
    }
}

/// The number of degrees for an angle in radians, and the rest (0 for nine angles in ten) with which it
/// turns back into the same bits: `degrees.to_radians() + rest.to_radians()`.
fn degrees_and_rest(radians: f64) -> (f64, f64) {
    let nearest = radians.to_degrees();
    let near = [nearest, nearest.next_up(), nearest.next_down()];
    match near.into_iter().find(|degrees| degrees.to_radians().to_bits() == radians.to_bits()) {
        Some(degrees) => (degrees, 0.0),
        None => (nearest, (radians - nearest.to_radians()).to_degrees()),
    }
}

impl Serialize for Degrees {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let (degrees, rest) = degrees_and_rest(self.0.radians());
        if rest == 0.0 {
            return serializer.serialize_f64(degrees);
        }
        let mut pair = serializer.serialize_tuple(2)?;
        pair.serialize_element(&degrees)?;
        pair.serialize_element(&rest)?;
        pair.end()
    }
}

impl<'de> Deserialize<'de> for Degrees {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(DegreesVisitor)
    }
}

struct DegreesVisitor;

impl<'de> Visitor<'de> for DegreesVisitor {
    type Value = Degrees;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a number of degrees")
    }

    fn visit_f64<E: Error>(self, degrees: f64) -> Result<Degrees, E> {
        // A million turns: far beyond any rotation a person can mean, and still exact to a nanoradian.
        if degrees.is_finite() && degrees.abs() <= 3.6e8 {
            return Ok(Degrees(Angle::from_degrees(degrees)));
        }
        Err(E::custom(format!("{degrees} is no angle; it must be a plain number of degrees")))
    }

    fn visit_i64<E: Error>(self, degrees: i64) -> Result<Degrees, E> {
        self.visit_f64(degrees as f64)
    }

    fn visit_u64<E: Error>(self, degrees: u64) -> Result<Degrees, E> {
        self.visit_f64(degrees as f64)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut pair: A) -> Result<Degrees, A::Error> {
        let mut next =
            || pair.next_element::<f64>()?.ok_or_else(|| A::Error::custom("a pair of degrees has two numbers"));
        let (degrees, rest) = (next()?, next()?);
        let whole: Degrees = DegreesVisitor.visit_f64(degrees)?;
        if !(rest.abs() <= 1e-6) {
            return Err(A::Error::custom(format!("{rest} is no rest of an angle; it must be next to nothing")));
        }
        Ok(Degrees(Angle::from_radians(whole.0.radians() + rest.to_radians())))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::degrees_and_rest;

    proptest! {
        #[test]
        fn every_angle_comes_back_to_the_bit(radians in prop_oneof![-7.0..7.0f64, -1e-300..1e-300f64, -1e6..1e6f64]) {
            let (degrees, rest) = degrees_and_rest(radians);
            let back = if rest == 0.0 { degrees.to_radians() } else { degrees.to_radians() + rest.to_radians() };
            prop_assert_eq!(back.to_bits(), radians.to_bits());
        }

        #[test]
        fn typed_degrees_are_written_as_typed(tenths in -3600i32..=3600) {
            let typed = f64::from(tenths) / 10.0;
            prop_assert!((degrees_and_rest(typed.to_radians()).0 - typed).abs() <= 4.0 * f64::EPSILON * typed.abs());
        }
    }
}
