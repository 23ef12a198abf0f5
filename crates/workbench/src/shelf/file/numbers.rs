//! Lengths and angles as they stand in a file: millimetres and degrees, exact to the bit.

use elbowroom_bending::{ClampLength, SeamStart};
use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Angle, LARGEST_MM, LARGEST_ROTATION, Length};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A length in a file: a plain number of millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Millimetres(pub f64);

/// An angle in a file: a plain number of degrees. The angles of a path are all of the kind that a number
/// of degrees gives to the bit ([`Angle::storable`]).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Degrees(pub Angle);

/// The length of a chosen clamp in a file, behind its guard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct ClampMillimetres(pub ClampLength);

/// Where a seam is pinned in a file, behind its guard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SeamDegrees(pub SeamStart);

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
            "{} is no length; it must be a number from {} to {LARGEST_MM} mm",
            format_any(value),
            -LARGEST_MM
        )))
    }
}

impl Serialize for Degrees {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.0.degrees_exact())
    }
}

impl<'de> Deserialize<'de> for Degrees {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let degrees = f64::deserialize(deserializer)?;
        if degrees.is_finite() && degrees.abs() <= LARGEST_ROTATION.degrees() {
            return Ok(Self(Angle::from_degrees(degrees)));
        }
        Err(D::Error::custom(format!(
            "{} is no angle; it must be a number from -3600 to 3600 degrees",
            format_any(degrees)
        )))
    }
}

impl Serialize for ClampMillimetres {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Millimetres::from(self.0.length()).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for ClampMillimetres {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let length = Millimetres::deserialize(deserializer)?;
        ClampLength::new(length.into()).map(Self).map_err(D::Error::custom)
    }
}

impl Serialize for SeamDegrees {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Degrees(self.0.clock()).serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for SeamDegrees {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let start = Degrees::deserialize(deserializer)?;
        SeamStart::new(start.0).map(Self).map_err(D::Error::custom)
    }
}
