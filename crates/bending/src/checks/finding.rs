//! What a check has to say, as a plain value that every view consumes.

use std::borrow::Cow;
use std::cmp::Ordering;

use super::{About, named};
use crate::Edit;
use crate::forming::ground::Ground;

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

/// A cure that can be applied.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// What the button says, such as `Lengthen the straight to 120.0 mm`.
    pub label: String,
    /// The edit that does it.
    pub edit: Edit,
    /// What the cure costs or risks, in a short sentence; empty where nothing.
    pub risk: Cow<'static, str>,
}

/// One thing a check has found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
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
    /// One plain sentence or two: what, by how much, where, what helps.
    pub text: String,
    /// What the verdict says if this is the first thing in the way, completing nothing: a full sentence.
    pub verdict: String,
    /// Cures, best first.
    pub cures: Vec<Cure>,
}

impl Finding {
    /// Every place that it speaks of, the one it is listed by first.
    pub fn places(&self) -> impl Iterator<Item = &Place> {
        std::iter::once(&self.place).chain(&self.also)
    }

    fn about(&self) -> Option<About> {
        named(self.fault).map(|check| check.about)
    }

    /// Whether the drawing makes no tube there, so that there is nothing to plan.
    pub fn makes_no_tube(&self) -> bool {
        self.about() == Some(About::Drawing)
    }

    /// Whether the straight ahead of a bend is too short for its clamp.
    pub fn lacks_straight(&self) -> bool {
        self.about() == Some(About::Straight)
    }

    /// Whether it speaks of how a clamp lies on the tube: on too short a straight, or over an arc.
    pub fn is_of_clamp(&self) -> bool {
        matches!(self.about(), Some(About::Straight | About::Bite))
    }

    /// Whether it asks for no more than extra stock at an end, cut off after bending.
    pub fn is_stock(&self) -> bool {
        self.about() == Some(About::Stock)
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

/// The verdict: one sentence on this tube and this tooling.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// The worst severity found; `None` where nothing was.
    pub severity: Option<Severity>,
    /// The sentence.
    pub text: String,
}
