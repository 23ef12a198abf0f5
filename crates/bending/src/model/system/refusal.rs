//! Why a change to a system cannot be made.

use elbowroom_geometry::Refusal;
use elbowroom_geometry::units::LengthUnit;
use thiserror::Error;

use super::TubeId;
use super::obstacle::ObstacleId;
use crate::EditRefusal;

/// Why a system stays as it was.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SystemRefusal {
    /// The change to one of its tubes cannot be made.
    #[error(transparent)]
    Edit(#[from] EditRefusal),
    /// The system would break a rule of its own.
    #[error(transparent)]
    Rule(#[from] Refusal),
    /// There is no such tube.
    #[error("there is no tube of the id {}; the system has {has}", .id.number())]
    NoSuchTube {
        /// The id that was named.
        id: TubeId,
        /// What there is, such as `“Downpipe” and “Tail”`.
        has: String,
    },
    /// There is no such obstacle.
    #[error("there is no obstacle of the id {}", .0.number())]
    NoSuchObstacle(ObstacleId),
    /// Another obstacle has that name.
    #[error("another obstacle is called \u{201c}{0}\u{201d} already; give this one a name of its own")]
    ObstacleNameTaken(String),
    /// The obstacle is held where it stands.
    #[error("the obstacle \u{201c}{0}\u{201d} is locked; unlock it before you change where it stands")]
    ObstacleLocked(String),
    /// Another tube has that name.
    #[error("another tube is called \u{201c}{0}\u{201d} already; give this one a name of its own")]
    NameTaken(String),
    /// The last tube was to be removed.
    #[error("\u{201c}{0}\u{201d} is the only tube there is; start a new file instead of removing it")]
    LastTube(String),
    /// The last tube that is shown was to be hidden.
    #[error("\u{201c}{0}\u{201d} is the only tube that is shown; show another one before you hide it")]
    LastShown(String),
}

impl SystemRefusal {
    /// The refusal with its lengths in the unit that a person reads.
    pub fn said(&self, unit: LengthUnit) -> String {
        match self {
            Self::Edit(refusal) => refusal.said(unit),
            Self::Rule(refusal) => refusal.said(unit),
            other => other.to_string(),
        }
    }
}
