//! Why an edit cannot be made.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, Refusal};
use thiserror::Error;

/// A straight counted from 0: straight k lies before bend k, the last one is the tail.
pub type StraightIndex = usize;

/// Why an edit could not be applied. The part stays as it was.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum EditRefusal {
    /// A number was turned away.
    #[error(transparent)]
    Number(#[from] Refusal),
    /// The edit names something the part does not have.
    #[error("there is no {what}; the part has {has}")]
    NoSuch {
        /// What was named, such as `bend 7`.
        what: String,
        /// What there is, such as `4 bends`.
        has: String,
    },
    /// A straight between two vertices would vanish.
    #[error("{}", vertices_meet(*.straight, *.wanted, *.least, LengthUnit::Millimetre))]
    VerticesMeet {
        /// The straight, counted from 0.
        straight: StraightIndex,
        /// What it was to become.
        wanted: Length,
        /// What it must be more than.
        least: Length,
    },
    /// What is held would move, and no other place can give way for it.
    #[error("{0} is held; free it first")]
    Held(String),
    /// What is held would move, and nothing that is free can keep it.
    #[error("{0} would move, which is held, and nothing else can give way so far; free it, or its direction")]
    NoWay(String),
    /// The change cannot be made for a reason of its own.
    #[error("{0}")]
    Impossible(String),
}

fn vertices_meet(straight: StraightIndex, wanted: Length, least: Length, unit: LengthUnit) -> String {
    let (number, wanted, least) = (straight + 1, unit.shown(wanted.mm()), unit.shown(least.mm()));
    format!("straight {number} cannot become {wanted}: its two vertices would meet; it must be more than {least}")
}

impl EditRefusal {
    /// The refusal with its lengths in the unit that the part shows.
    pub fn said(&self, unit: LengthUnit) -> String {
        match self {
            Self::Number(refusal) => refusal.said(unit),
            Self::VerticesMeet { straight, wanted, least } => vertices_meet(*straight, *wanted, *least, unit),
            Self::NoSuch { .. } | Self::Held(_) | Self::NoWay(_) | Self::Impossible(_) => self.to_string(),
        }
    }

    /// Says that what was named by its id is not there.
    pub(super) fn gone(what: &str, count: usize, one: &str, many: &str) -> Self {
        Self::NoSuch { what: what.into(), has: counted(count, one, many) }
    }

    /// Says that there is no bend `index`, counted from 0, among so many.
    pub(crate) fn no_bend(index: usize, bends: usize) -> Self {
        Self::NoSuch { what: format!("bend {}", index + 1), has: counted(bends, "bend", "bends") }
    }

    /// Says that there is no straight `index`, counted from 0, among so many.
    pub(crate) fn no_straight(index: usize, straights: usize) -> Self {
        Self::NoSuch { what: format!("straight {}", index + 1), has: counted(straights, "straight", "straights") }
    }

    /// Says that there is no vertex `index`, counted from 0, among so many.
    pub(crate) fn no_vertex(index: usize, vertices: usize) -> Self {
        Self::NoSuch { what: format!("vertex {}", index + 1), has: counted(vertices, "vertex", "vertices") }
    }
}

/// So many of a thing.
pub(super) fn counted(count: usize, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}
