//! How far a tube has come at the machine: which steps of its program are done, and by which figures.
//!
//! It is the progress of one run, no part of the drawing: it lies in the settings, so that it outlives the program, and makes
//! no step of history. It holds the figures it was done by, so that a program that changed beneath it is told and never
//! followed without a word.

use elbowroom_bending::program::Program;
use serde::{Deserialize, Serialize};

/// Figures this near are the same to a person who sets them to a tenth, mm and degrees.
const AS_SHOWN: f64 = 0.05;

/// The most runs that are remembered; the one taken up last comes first.
pub(crate) const MOST_RUNS: usize = 24;

/// Which tube a run is of.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct RunOf {
    /// The file of its system; empty where there is none yet.
    pub file: String,
    /// Its number in that file.
    pub tube: u64,
    /// Its name.
    pub name: String,
}

/// What a step is set by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct SetBy {
    /// Feed, mm.
    pub feed_mm: f64,
    /// Rotation, degrees.
    pub rotation_deg: f64,
    /// Angle to set, degrees.
    pub set_deg: f64,
    /// Radius of the die, mm.
    pub die_clr_mm: f64,
    /// Length of the clamp, mm.
    pub clamp_mm: f64,
}

/// How far a tube has come.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Run {
    /// Whose it is.
    pub of: RunOf,
    /// What is done: 0 nothing, 1 the tube is loaded, then one a step.
    pub done: usize,
    /// How many tubes were bent whole before this one.
    pub tubes: u32,
    /// The length of the blank, mm.
    pub blank_mm: f64,
    /// What every step was set by when something was last done.
    pub set_by: Vec<SetBy>,
}

/// How a run stands to the program as it is now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    /// What is done, as in `done`.
    pub done: usize,
    /// How many steps the program has.
    pub steps: usize,
    /// How many tubes were bent whole before this one.
    pub tubes: u32,
    /// What has changed since, if anything.
    pub changed: Option<Changed>,
}

/// What has changed beneath a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Changed {
    /// The blank, which is loaded already, or the number of steps.
    Whole,
    /// The first step whose figures differ, counted from 0.
    From(usize),
}

impl Standing {
    /// The step that is to be done, counted from 0; `None` while the tube is to be loaded and once all is done.
    pub fn step(&self) -> Option<usize> {
        self.done.checked_sub(1).filter(|step| *step < self.steps)
    }

    /// Whether every step is done.
    pub fn is_finished(&self) -> bool {
        self.done > self.steps
    }

    /// Whether what was done was done by other figures, so that going on would spoil the tube.
    pub fn spoils_done(&self) -> bool {
        match self.changed {
            Some(Changed::Whole) => true,
            Some(Changed::From(step)) => step + 1 < self.done,
            None => false,
        }
    }
}

impl Run {
    /// Whether all its figures are numbers.
    pub(crate) fn is_sound(&self) -> bool {
        let all = |set: &SetBy| [set.feed_mm, set.rotation_deg, set.set_deg, set.die_clr_mm, set.clamp_mm];
        self.blank_mm.is_finite() && self.set_by.iter().all(|set| all(set).iter().all(|figure| figure.is_finite()))
    }

    /// A run that begins: nothing is done.
    pub(crate) fn begun(of: RunOf, program: &Program) -> Self {
        let mut run = Self { of, ..Self::default() };
        run.follow(program);
        run
    }

    /// Takes up the figures of a program.
    pub(crate) fn follow(&mut self, program: &Program) {
        (self.blank_mm, self.set_by) = (program.blank.mm(), set_by(program));
    }

    /// How it stands to a program.
    pub(crate) fn standing(&self, program: &Program) -> Standing {
        let now = set_by(program);
        let same = |a: f64, b: f64| (a - b).abs() <= AS_SHOWN;
        let differs = |(was, is): (&SetBy, &SetBy)| {
            !(same(was.feed_mm, is.feed_mm)
                && same(was.rotation_deg, is.rotation_deg)
                && same(was.set_deg, is.set_deg)
                && same(was.die_clr_mm, is.die_clr_mm)
                && same(was.clamp_mm, is.clamp_mm))
        };
        let step = self.set_by.iter().zip(&now).position(differs).map(Changed::From);
        let whole = self.set_by.len() != now.len() || !same(self.blank_mm, program.blank.mm());
        // Before anything is done nobody has followed any figures.
        let changed = if self.done == 0 {
            None
        } else if whole {
            Some(Changed::Whole)
        } else {
            step
        };
        Standing { done: self.done.min(now.len() + 1), steps: now.len(), tubes: self.tubes, changed }
    }
}

fn set_by(program: &Program) -> Vec<SetBy> {
    let of = |step: &elbowroom_bending::program::Step| SetBy {
        feed_mm: step.feed.mm(),
        rotation_deg: step.rotation.degrees(),
        set_deg: step.set_angle.degrees(),
        die_clr_mm: step.forming.die_clr.mm(),
        clamp_mm: step.forming.clamp.mm(),
    };
    program.steps.iter().map(of).collect()
}
