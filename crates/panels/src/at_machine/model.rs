//! The view for the machine as a plain value.

use std::fmt;

use elbowroom_bending::Severity;
use elbowroom_bending::at_machine::Watch;
use elbowroom_bending::program_sheet::{NOTHING_BENT, SheetLine, SheetStep};
use elbowroom_bending::setup::SetupItem;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::{Changed, Standing, Workbench};

use super::planned::Planned;
use crate::verdict;

/// A thing to be done in the row of ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tick {
    /// 0 is the loading, then the steps.
    pub number: usize,
    /// Whether it is done.
    pub done: bool,
    /// Whether it is the one to be done.
    pub now: bool,
}

/// What lies open.
#[derive(Clone, Debug, PartialEq)]
pub enum Page {
    /// There is nothing to follow, and why.
    Nothing(String),
    /// The machine is set up and the blank loaded.
    Load {
        /// What is put on the machine, in order.
        setup: Vec<SetupItem>,
        /// How the blank is put in, its length first.
        lines: Vec<SheetLine>,
        /// What to be careful of.
        cautions: Vec<String>,
        /// Where the seam goes, degrees clockwise from straight up.
        seam_deg: Option<f64>,
    },
    /// One step.
    Step(Box<SheetStep>),
    /// Every step is done.
    Done {
        /// What is still to be done with the tube.
        rest: Vec<SheetLine>,
    },
}

/// What the view shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The tube.
    pub name: String,
    /// Which tube of the run it is, counted from 1.
    pub tube: u32,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// How many steps there are.
    pub steps: usize,
    /// The loading and the steps about the one to be done.
    pub ticks: Vec<Tick>,
    /// What is said before anything else: what came of the last piece, what stops the program.
    pub headlines: Vec<(Option<Severity>, String)>,
    /// What has changed beneath the run; nothing is ticked off before it is answered.
    pub changed: Option<String>,
    /// What lies open.
    pub page: Page,
}

/// So many ticks are shown at most, the one to be done among them.
const MOST_TICKS: usize = 21;

impl Model {
    /// The view on a workbench, by its plan.
    pub fn of(workbench: &Workbench, planned: &Planned) -> Self {
        let empty = |page| Self {
            name: workbench.part().name.clone(),
            tube: 1,
            unit: workbench.part().units,
            steps: 0,
            ticks: Vec::new(),
            headlines: Vec::new(),
            changed: None,
            page,
        };
        let (plan, sheet) = match planned {
            Ok(planned) => planned,
            Err(why) => return empty(Page::Nothing(format!("There is no program: {why}."))),
        };
        if sheet.steps.is_empty() {
            return empty(Page::Nothing(NOTHING_BENT.to_owned()));
        }
        let standing = workbench.at_machine(plan);
        let blank = sheet.blank.first().cloned();
        let page = match standing.step().and_then(|step| sheet.steps.get(step)) {
            Some(step) => Page::Step(Box::new(step.clone())),
            None if standing.is_finished() => Page::Done {
                rest: sheet
                    .setup
                    .iter()
                    .filter(|item| item.what == "Trim" || item.what == "First piece")
                    .map(|item| SheetLine {
                        name: item.what.into(),
                        value: item.value.clone(),
                        source: item.source.clone(),
                        unsure: item.unsure,
                    })
                    .collect(),
            },
            None => Page::Load {
                setup: sheet.setup.iter().filter(|item| item.on_machine).cloned().collect(),
                lines: blank.into_iter().chain(sheet.load.iter().cloned()).collect(),
                cautions: sheet.cautions.iter().map(|caution| caution.text.clone()).collect(),
                seam_deg: sheet.seam_from_top.map(|angle| angle.degrees()),
            },
        };
        let piece = verdict::of_last_piece(workbench).map(|said| (said.severity, said.text));
        let stops = sheet.stops().map(|words| (Some(Severity::Stop), words.to_owned()));
        Self {
            tube: standing.tubes.saturating_add(1),
            steps: standing.steps,
            ticks: ticks(&standing),
            headlines: stops.chain(piece).collect(),
            changed: changed(&standing),
            ..empty(page)
        }
    }
}

fn ticks(standing: &Standing) -> Vec<Tick> {
    let all = standing.steps + 1;
    let first = standing.done.saturating_sub(MOST_TICKS / 2).min(all.saturating_sub(MOST_TICKS));
    let numbers = first..all.min(first + MOST_TICKS);
    numbers.map(|number| Tick { number, done: number < standing.done, now: number == standing.done }).collect()
}

fn changed(standing: &Standing) -> Option<String> {
    let what = match standing.changed? {
        Changed::Whole => "The blank or the steps are".to_owned(),
        Changed::From(step) => format!("Step {} is", step + 1),
    };
    let done = match standing.done {
        1 => "the tube was loaded".to_owned(),
        done => format!("step {} was done", (done - 1).min(standing.steps)),
    };
    let advice = if standing.spoils_done() {
        "What is bent was bent by other figures: begin again with a new blank, or go on if you know that it fits."
    } else {
        "What is bent so far stands: go on by the new figures, or begin again."
    };
    Some(format!("The program has changed since {done}. {what} another now. {advice}"))
}

impl Page {
    /// What the page is called.
    pub fn title(&self, steps: usize) -> String {
        match self {
            Self::Nothing(_) => "Nothing to bend by".to_owned(),
            Self::Load { .. } => "Set up and load".to_owned(),
            Self::Step(step) => format!("Step {} of {steps}", step.number),
            Self::Done { .. } => "All bends are made".to_owned(),
        }
    }
}

/// A figure of a step as it is shown large.
pub(super) struct Figure {
    pub name: &'static str,
    pub value: String,
    /// Its unit, smaller beside it.
    pub unit: &'static str,
    /// What stands small below it.
    pub below: String,
}

impl Figure {
    /// All of it but what stands below, in words.
    pub fn said(&self) -> String {
        let gap = if self.unit.is_empty() { "" } else { " " };
        format!("{} {}{gap}{}", self.name, self.value, self.unit)
    }
}

/// What is set at a step: the three that are set, then where the clamp and the mark are.
pub(super) fn figures(step: &SheetStep, unit: LengthUnit) -> [Figure; 5] {
    let below = String::new;
    [
        Figure { name: "Feed", value: step.feed.clone(), unit: unit.symbol(), below: below() },
        Figure {
            name: "Rotation",
            value: format!("{}°", step.rotation),
            unit: "",
            below: format!("dial {}°", step.dial),
        },
        Figure {
            name: "Set angle",
            value: format!("{}°", step.set),
            unit: "",
            below: format!("{}° when released", step.free),
        },
        Figure {
            name: "Clamp",
            value: step.clamp.clone(),
            unit: unit.symbol(),
            below: format!("on the blank from {} to {}", step.clamp_from, step.mark),
        },
        Figure {
            name: "Mark",
            value: step.mark.clone(),
            unit: unit.symbol(),
            below: "where the bend starts on the blank".to_owned(),
        },
    ]
}

/// What is watched, in one line.
pub(super) fn watch_line(watch: &Watch) -> String {
    match watch.severity {
        Some(severity) => format!("{}: {}", severity.word(), watch.text),
        None => watch.text.clone(),
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}, tube {}: {}", self.name, self.tube, self.page.title(self.steps))?;
        for tick in &self.ticks {
            let mark = if tick.done {
                "done"
            } else if tick.now {
                "now"
            } else {
                "to do"
            };
            writeln!(out, "[{}: {mark}]", tick.number)?;
        }
        for (severity, text) in &self.headlines {
            writeln!(out, "{}: {text}", severity.map_or("sound", Severity::word))?;
        }
        if let Some(changed) = &self.changed {
            writeln!(out, "{changed}")?;
        }
        match &self.page {
            Page::Nothing(why) => writeln!(out, "{why}"),
            Page::Load { setup, lines, cautions, .. } => {
                for item in setup {
                    writeln!(out, "{}: {}", item.what, item.value)?;
                }
                lines.iter().try_for_each(|line| writeln!(out, "{}: {}", line.name, line.value))?;
                cautions.iter().try_for_each(|caution| writeln!(out, "{caution}"))
            }
            Page::Step(step) => {
                for figure in figures(step, self.unit) {
                    let below = if figure.below.is_empty() { String::new() } else { format!(" ({})", figure.below) };
                    writeln!(out, "{}{below}", figure.said())?;
                }
                step.watch.iter().try_for_each(|watch| writeln!(out, "{}", watch_line(watch)))
            }
            Page::Done { rest } => rest.iter().try_for_each(|line| writeln!(out, "{}: {}", line.name, line.value)),
        }
    }
}
