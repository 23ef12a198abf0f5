//! What a shop knows of springback: trial bends, lines of its own, and what it has bent without a crack.

use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Angle, Length, Refusal};

/// A straight line of springback over set angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpringbackLine {
    /// Springback at no angle: the part that comes from the straights.
    pub a: Angle,
    /// Springback per set angle.
    pub b: f64,
}

impl SpringbackLine {
    /// Springback beyond this at no angle is a slip of the pen.
    const LARGEST_START: Angle = Angle::from_degrees(45.0);

    /// The line behind its guard, with an angle that a file holds to the bit.
    ///
    /// # Errors
    /// Refuses a line by which nothing is bent: 45° and more at no angle, half of the bend and more per degree.
    pub fn sound(self) -> Result<Self, Refusal> {
        if !(self.a.is_finite() && self.a.abs() < Self::LARGEST_START) {
            let was = format!("{}°", format_any(self.a.degrees()));
            return Err(Refusal::new("the springback at no angle", was, "less than 45° either way"));
        }
        if !(self.b.is_finite() && self.b.abs() < 0.5) {
            let may_be = "less than 0.5 either way, such as 0.02 for two degrees in a hundred";
            return Err(Refusal::new("the springback per degree", format_any(self.b), may_be));
        }
        Ok(Self { a: self.a.storable(), b: self.b })
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

/// One trial bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialBend {
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

impl TrialBend {
    /// Turns away numbers that no trial bend can have. `number` is its place in the list, counted from 1.
    ///
    /// # Errors
    /// Says which number it is and what it may be.
    pub fn check(&self, number: usize) -> Result<(), Refusal> {
        let within = |angle: Angle| angle.is_finite() && angle > Angle::ZERO && angle <= Angle::from_degrees(359.0);
        if !within(self.set) {
            return Err(Refusal::new(
                format!("the set angle of trial {number}"),
                format!("{}°", format_any(self.set.degrees())),
                "more than 0° and up to 359°",
            ));
        }
        if !(within(self.measured) && self.measured > self.set / 2.0 && self.measured < self.set * 1.5) {
            let may_be = format!("near the set angle of {:.1}°", self.set.degrees());
            return Err(Refusal::new(
                format!("the measured angle of trial {number}"),
                format!("{}°", format_any(self.measured.degrees())),
                may_be,
            ));
        }
        for (what, length) in
            [("measured radius", self.measured_radius), ("length drawn", self.drawn_length), ("wall", self.wall)]
        {
            if let Some(length) = length.filter(|length| !(length.is_finite() && length.mm() > 0.0)) {
                return Err(Refusal::new(format!("the {what} of trial {number}"), length, "more than 0 mm"));
            }
        }
        Ok(())
    }
}

/// What the shop knows of one die set in one material.
#[derive(Clone, Debug, PartialEq)]
pub struct SpringbackRecord {
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

impl SpringbackRecord {
    /// A record that knows nothing yet.
    pub fn new(die: impl Into<String>, material: impl Into<String>) -> Self {
        let (die, material) = (die.into(), material.into());
        Self { die, material, trials: Vec::new(), line: None, stretch: None, uncracked: false }
    }

    /// The record behind its guard, with angles that a file holds to the bit. A shop file and a change in the
    /// window pass through here alike.
    ///
    /// # Errors
    /// Refuses a die set or material without a name, and numbers that nothing can have been measured to be.
    pub fn sound(mut self) -> Result<Self, Refusal> {
        for (what, name) in [("the die set of a springback record", &self.die), ("the material", &self.material)] {
            if name.trim().is_empty() {
                return Err(Refusal::new(what, "empty", "named, such as 304 stainless"));
            }
        }
        for (index, trial) in self.trials.iter_mut().enumerate() {
            trial.check(index + 1)?;
            (trial.set, trial.measured) = (trial.set.storable(), trial.measured.storable());
        }
        self.line = self.line.map(SpringbackLine::sound).transpose()?;
        if let Some(stretch) = self.stretch.filter(|stretch| !(stretch.is_finite() && stretch.abs() < 0.5)) {
            let may_be = "less than 50 % either way, such as 2 %";
            return Err(Refusal::new("the stretch", format!("{} %", format_any(stretch * 100.0)), may_be));
        }
        Ok(self)
    }

    /// Whether nothing is known any more.
    pub fn is_empty(&self) -> bool {
        self.trials.is_empty() && self.line.is_none() && self.stretch.is_none() && !self.uncracked
    }
}
