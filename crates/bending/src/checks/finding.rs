//! What every finding holds, whichever check it is from: plain values, no words.

use std::cmp::Ordering;

use crate::forming::springback::SpringbackBasis;
use crate::model::ground::Ground;

/// How grave a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing: stock, labour.
    Note,
    /// It may pass, with a mark or a risk.
    Caution,
    /// It cannot be made so.
    Stop,
}

impl Severity {
    /// The word on screen and in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Caution => "caution",
            Self::Stop => "stop",
        }
    }

    /// How grave a finding is that is so grave where springback was measured: one step milder where it rests on
    /// theory, which is only a start.
    pub(crate) const fn by_springback(self, basis: SpringbackBasis) -> Self {
        match (self, basis) {
            (
                measured,
                SpringbackBasis::Trials
                | SpringbackBasis::DoubtfulTrials
                | SpringbackBasis::OtherWall
                | SpringbackBasis::Shop,
            ) => measured,
            (Self::Stop, SpringbackBasis::Theory) => Self::Caution,
            (Self::Caution | Self::Note, SpringbackBasis::Theory) => Self::Note,
        }
    }
}

/// The name of a check, such as `clamp-across-arc`.
pub type Fault = &'static str;

/// The unit of a finding's figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Millimetres.
    Millimetre,
    /// Degrees. The figures are in degrees too: findings are text for people, not input to mathematics.
    Degree,
    /// A plain count.
    Count,
    /// A share in percent.
    Percent,
}

impl Unit {
    /// The sign on screen and in JSON: `mm`, `deg`, `count` or `percent`.
    pub const fn sign(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Degree => "deg",
            Self::Count => "count",
            Self::Percent => "percent",
        }
    }
}

/// Where on the tube a finding speaks, in mm from the tip of the part as drawn, trims not counted.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// Start of the stretch.
    pub from_mm: f64,
    /// End of the stretch.
    pub to_mm: f64,
    /// The bend it belongs to, counted from 0.
    pub bend: Option<usize>,
    /// The straight it belongs to, counted from 0: straight k lies before bend k.
    pub straight: Option<usize>,
}

impl Place {
    /// Whether it speaks of the tube as a whole, of no bend and no straight: such a place marks the ends of the tube.
    pub fn is_whole_tube(&self) -> bool {
        self.bend.is_none() && self.straight.is_none()
    }
}

/// What every finding holds: what was measured where, what it may be, and what both rest on.
#[derive(Clone, Debug, PartialEq)]
pub struct Facts {
    /// The check's name.
    pub fault: Fault,
    /// How grave it is.
    pub severity: Severity,
    /// Where on the tube: the place that it is listed by.
    pub place: Place,
    /// Further places that it speaks of and marks, such as the one that the tube meets; mostly none.
    pub also: Vec<Place>,
    /// What was measured.
    pub measured: f64,
    /// What it may be.
    pub limit: f64,
    /// The unit of both.
    pub unit: Unit,
    /// What the measure rests on; `None` where it follows from the drawing and what the shop owns.
    pub measured_basis: Option<Ground>,
    /// What the limit rests on; `None` where it follows from geometry and what the shop owns.
    pub limit_basis: Option<Ground>,
}

impl Facts {
    /// Every place that it speaks of, the one it is listed by first.
    pub fn places(&self) -> impl Iterator<Item = &Place> {
        std::iter::once(&self.place).chain(&self.also)
    }

    /// The total order of findings: worst first, then along the tube, then by name.
    pub fn order(&self, other: &Self) -> Ordering {
        other
            .severity
            .cmp(&self.severity)
            .then(self.place.from_mm.total_cmp(&other.place.from_mm))
            .then(self.place.to_mm.total_cmp(&other.place.to_mm))
            .then(self.place.bend.cmp(&other.place.bend))
            .then(self.fault.cmp(other.fault))
            .then(self.measured.total_cmp(&other.measured))
    }
}
