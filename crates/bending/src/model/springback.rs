//! What a shop knows of springback: trial bends, lines of its own, and what it has bent without a crack.

use std::borrow::Cow;

use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Angle, BendPath, LARGEST_MM, Length, Refusal};

use super::guarded::{Guard, Guarded, as_written, bend_angle, degrees, positive};
use super::text::harmless;

/// A straight line of springback over set angle, behind its guard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpringbackLine {
    a: Angle,
    b: f64,
}

impl SpringbackLine {
    /// Springback beyond this at no angle is a slip of the pen.
    pub(crate) const LARGEST_START: Angle = Angle::from_degrees(45.0);
    /// Springback of so much of what is set is none: the bend is gone.
    pub(crate) const LARGEST_SHARE: f64 = 0.5;

    /// A line of the shop's own: springback at no angle and per set angle, the angle as a file holds it to the bit.
    ///
    /// # Errors
    /// Refuses a line by which nothing is bent: 45° and more at no angle, half of the bend and more per degree.
    pub fn new(a: Angle, b: f64) -> Result<Self, Refusal> {
        if !(a.is_finite() && a.abs() < Self::LARGEST_START) {
            return Err(Refusal::new("the springback at no angle", degrees(a), "less than 45° either way"));
        }
        if !(b.is_finite() && b.abs() < Self::LARGEST_SHARE) {
            let may_be = "less than 0.5 either way, such as 0.02 for two degrees in a hundred";
            return Err(Refusal::new("the springback per degree", format_any(b), may_be));
        }
        Ok(Self { a: a.storable(), b })
    }

    /// A line that was worked out by a formula or a fit, which have bounds of their own.
    pub(crate) const fn worked_out(a: Angle, b: f64) -> Self {
        Self { a, b }
    }

    /// Springback at no angle: the part that comes from the straights.
    pub const fn a(self) -> Angle {
        self.a
    }

    /// Springback per set angle.
    pub const fn b(self) -> f64 {
        self.b
    }

    /// No springback at all.
    pub const NONE: Self = Self { a: Angle::ZERO, b: 0.0 };

    /// The free angle that a set angle leaves.
    pub fn free(&self, set: Angle) -> Angle {
        set - self.a - set * self.b
    }

    /// The set angle that leaves a free angle.
    pub fn set(&self, free: Angle) -> Angle {
        (free + self.a) / (1.0 - self.b)
    }

    /// The free radius of a bend that is to keep the free angle `free`: R_die θ_set/θ_free (S01).
    pub fn free_radius(&self, die: Length, free: Angle) -> Length {
        if free == Angle::ZERO {
            return die;
        }
        die * (self.set(free) / free)
    }
}

/// One trial bend, behind its guard.
pub type TrialBend = Guarded<TrialFigures>;

/// What is to be known of a trial bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialFigures {
    /// The angle the machine was set to.
    pub set: Angle,
    /// The angle measured on the released tube.
    pub measured: Angle,
    /// The radius measured on the released tube.
    pub measured_radius: Option<Length>,
    /// The length of tube that was drawn into the bend.
    pub drawn_length: Option<Length>,
    /// The wall of the tube it was bent of; `None` where nobody noted it.
    pub wall: Option<Length>,
}

impl Guard for TrialFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        bend_angle(|| "the set angle".into(), &mut self.set)?;
        let near = self.measured > self.set / 2.0 && self.measured < self.set * 1.5;
        if !(near && self.measured <= BendPath::LARGEST_ANGLE) {
            let may_be = format!("near the set angle of {:.1}°", self.set.degrees());
            return Err(Refusal::new("the measured angle", degrees(self.measured), may_be));
        }
        self.measured = self.measured.storable();
        for (what, length) in [
            ("the measured radius", self.measured_radius),
            ("the length drawn", self.drawn_length),
            ("the wall", self.wall),
        ] {
            if let Some(length) = length {
                positive(|| what.into(), length, Length::from_mm(LARGEST_MM))?;
            }
        }
        Ok(())
    }
}

/// What the shop knows of one die set in one material, behind its guard.
pub type SpringbackRecord = Guarded<RecordFigures>;

/// What a shop can know of one die set in one material.
#[derive(Clone, Debug, PartialEq)]
pub struct RecordFigures {
    /// The die set, by name.
    pub die: String,
    /// The material, by name.
    pub material: String,
    /// Trial bends.
    pub trials: Vec<TrialBend>,
    /// A line the shop typed in; it goes before the trials.
    pub line: Option<SpringbackLine>,
    /// Share by which bends take less blank than R_die θ_set, typed in; it goes before the trials.
    pub stretch: Option<f64>,
    /// Whether the shop has bent this material on this die set without a crack.
    pub uncracked: bool,
}

impl RecordFigures {
    /// A record that knows nothing yet.
    pub fn new(die: impl Into<String>, material: impl Into<String>) -> Self {
        let (die, material) = (die.into(), material.into());
        Self { die, material, trials: Vec::new(), line: None, stretch: None, uncracked: false }
    }

    /// Whether nothing is known any more.
    pub fn is_empty(&self) -> bool {
        self.trials.is_empty() && self.line.is_none() && self.stretch.is_none() && !self.uncracked
    }
}

impl Guard for RecordFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        for name in [&mut self.die, &mut self.material] {
            if let Cow::Owned(plain) = harmless(name) {
                *name = plain;
            }
        }
        for (what, name) in [("the die set of a springback record", &self.die), ("the material", &self.material)] {
            if name.trim().is_empty() {
                return Err(Refusal::new(what, "empty", "named, such as 304 stainless"));
            }
        }
        if let Some(stretch) = self.stretch.filter(|stretch| !(stretch.is_finite() && stretch.abs() < 0.5)) {
            let may_be = "less than 50 % either way, such as 2 %";
            return Err(Refusal::new("the stretch", format!("{} %", as_written(stretch * 100.0)), may_be));
        }
        Ok(())
    }
}
