//! The program for the next piece, as it is shown and as it is taken along.

use std::fmt;

use elbowroom_bending::first_off::job::{Job, end_word, hand_word};
use elbowroom_bending::plan::Plan;
use elbowroom_bending::program::{ROTATION_SENSE, Step};
use elbowroom_bending::setup::UNSURE_LEGEND;
use elbowroom_bending::{End, Machine};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;

use super::words::Words;
use crate::program::{StepLine, table};

/// The program for the next piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Next {
    /// The part's name.
    pub part: String,
    /// From which end and on what machine, and how to read the figures.
    pub reading: String,
    /// The steps in the order of bending.
    pub steps: Vec<StepLine>,
    /// The blank, in words.
    pub blank: String,
    /// What it rests on.
    pub ground: String,
    /// What stops it from being run.
    pub stops: Vec<String>,
    /// Whether any figure is unsure.
    pub unsure: bool,
    /// The piece after which it was made, counted from 1, and whether it is followed.
    pub correction: (usize, bool),
    /// The steps as comma-separated text.
    pub table: String,
    /// The unit of its lengths.
    pub unit: LengthUnit,
}

/// What goes with every corrected program.
pub(super) const CAUTION: &str = "A corrected program is an estimate until the next piece is bent and measured. Keep clear of the swing: \
    the machine's own rules and local law come first.";

/// Below this a length is shown as the same.
const SAME_LENGTH: Length = Length::from_mm(0.05);

impl Next {
    pub(super) fn of(plan: &Plan, job: &Job, machine: &Machine, unit: LengthUnit) -> Self {
        let words = Words { unit };
        let order = match plan.from {
            End::Start => "",
            End::Finish => " Bends are numbered as drawn, so the last one is bent first.",
        };
        let length = |length: Length| words.length(length, false);
        let blank = match (job.was.blank, job.next.blank) {
            (was, next) if (was - next).abs() < SAME_LENGTH => format!("Cut the blank to {} as before.", length(next)),
            (was, next) => format!("Cut the blank to {}; it was {}.", length(next), length(was)),
        };
        let steps = job.was.steps.iter().zip(&job.next.steps).enumerate();
        Self {
            part: plan.part.name.clone(),
            reading: format!(
                "Bent from the {} on a machine that bends {}.{order} Rotation is positive {ROTATION_SENSE}. Feed of step 1 includes the trim at the end bent first. Lengths in {}.",
                end_word(plan.from),
                hand_word(plan.hand),
                unit.symbol()
            ),
            steps: steps.map(|(index, (was, next))| line(plan, job, index, (was, next), words)).collect(),
            blank,
            ground: job.ground(unit),
            stops: job.stops(machine, unit),
            unsure: job.unsure.contains(&true),
            correction: (job.next.corrected_after(), !job.put_aside),
            unit,
            table: table(&Plan { program: job.next.clone(), ..plan.clone() }),
        }
    }
}

fn line(plan: &Plan, job: &Job, index: usize, (was, next): (&Step, &Step), words: Words) -> StepLine {
    let bend = plan.drawn_bend(index).unwrap_or(index);
    let unsure = job.unsure[index];
    let feed = |step: &Step| words.bare(step.feed, false);
    let rotation = |step: &Step| words.rotation(step.rotation);
    let set = |step: &Step| words.angle(step.set_angle, false);
    let changed: Vec<String> =
        [("feed", feed(was), feed(next)), ("rotation", rotation(was), rotation(next)), ("set", set(was), set(next))]
            .into_iter()
            .filter(|(_, was, next)| was != next)
            .map(|(name, was, _)| format!("{name} {was}"))
            .collect();
    let changed = if changed.is_empty() { "as before".to_owned() } else { format!("was {}", changed.join(", ")) };
    StepLine {
        number: index + 1,
        bend: Some(bend),
        feed: feed(next),
        rotation: rotation(next),
        set: words.angle(next.set_angle, unsure),
        rest: format!("bend {} as drawn; {changed}; mark {}", bend + 1, words.bare(next.mark, job.mark_unsure(index))),
    }
}

impl fmt::Display for Next {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "Program for the next piece of {}", self.part)?;
        for stop in &self.stops {
            writeln!(out, "Stop: {stop}")?;
        }
        writeln!(out, "{}", self.reading)?;
        for StepLine { number, feed, rotation, set, rest, .. } in &self.steps {
            writeln!(out, "{number}. feed {feed}, rotation {rotation}, set {set}")?;
            writeln!(out, "   {rest}")?;
        }
        writeln!(out, "{}\n{}\n{CAUTION}", self.blank, self.ground)?;
        if self.unsure { writeln!(out, "{UNSURE_LEGEND}") } else { Ok(()) }
    }
}
