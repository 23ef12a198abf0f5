//! One straight or arc in space.

use elbowroom_geometry::{Point3, Vector3};

/// A straight or arc from one point to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Piece {
    /// A straight.
    Straight {
        /// Where it starts, mm.
        from: Point3<f64>,
        /// Where it ends, mm.
        to: Point3<f64>,
    },
    /// An arc.
    Arc {
        /// Where it starts, mm.
        from: Point3<f64>,
        /// Its centre, mm.
        centre: Point3<f64>,
        /// Its axis, about which it turns right-handed; a unit vector.
        axis: Vector3<f64>,
        /// How far it turns, radians, from 0 to a full turn.
        angle_rad: f64,
    },
}

impl Piece {
    /// Where it starts.
    pub fn from(&self) -> Point3<f64> {
        match self {
            Self::Straight { from, .. } | Self::Arc { from, .. } => *from,
        }
    }

    /// Where it ends.
    pub fn to(&self) -> Point3<f64> {
        match self {
            Self::Straight { to, .. } => *to,
            Self::Arc { from, centre, axis, angle_rad } => centre + turned(&(from - centre), axis, *angle_rad),
        }
    }

    /// The direction in which it starts, a unit vector; `None` where it has no length.
    pub fn sets_out(&self) -> Option<Vector3<f64>> {
        match self {
            Self::Straight { from, to } => (to - from).try_normalize(0.0),
            Self::Arc { from, centre, axis, .. } => axis.cross(&(from - centre)).try_normalize(0.0),
        }
    }

    /// The direction in which it ends, likewise.
    pub fn arrives(&self) -> Option<Vector3<f64>> {
        match self {
            Self::Straight { .. } => self.sets_out(),
            Self::Arc { centre, axis, .. } => axis.cross(&(self.to() - centre)).try_normalize(0.0),
        }
    }

    /// Its length, mm.
    pub fn length_mm(&self) -> f64 {
        match self {
            Self::Straight { from, to } => (to - from).norm(),
            Self::Arc { from, centre, angle_rad, .. } => (from - centre).norm() * angle_rad,
        }
    }

    /// The same from its other end.
    pub fn reversed(&self) -> Self {
        match self {
            Self::Straight { from, to } => Self::Straight { from: *to, to: *from },
            Self::Arc { centre, axis, angle_rad, .. } => {
                Self::Arc { from: self.to(), centre: *centre, axis: -axis, angle_rad: *angle_rad }
            }
        }
    }
}

/// A vector turned about a unit axis, right-handed (Rodrigues; from memory).
pub(super) fn turned(vector: &Vector3<f64>, axis: &Vector3<f64>, angle_rad: f64) -> Vector3<f64> {
    let (sin, cos) = angle_rad.sin_cos();
    vector * cos + axis.cross(vector) * sin + axis * (axis.dot(vector) * (1.0 - cos))
}
