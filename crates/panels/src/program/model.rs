//! The program as a plain value.

use std::fmt;

use elbowroom_bending::plan::{Plan, plan};
use elbowroom_bending::program::{ROTATION_SENSE, Step};
use elbowroom_bending::program_table::{COLUMNS, rows};
use elbowroom_bending::setup::{Setup, TRIAL_ADVICE, UNSURE_LEGEND, UNSURE_MARK};
use elbowroom_bending::{End, Hand, Severity};
use elbowroom_workbench::Workbench;

use super::words::Words;

/// Beyond so many bends a program is worked out only on demand. A program of so many takes some
/// milliseconds on a slow machine; the frame has thirty.
const MOST_BENDS: usize = 1000;

/// A name with what there is to say.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// What it is about.
    pub name: &'static str,
    /// What there is to say.
    pub value: String,
    /// Where it comes from; empty where it follows from the drawing.
    pub source: String,
    /// Whether it must look unsure.
    pub unsure: bool,
}

/// One step as it is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct StepLine {
    /// The step, counted from 1.
    pub number: usize,
    /// The bend as drawn, counted from 0.
    pub bend: usize,
    /// Carriage feed.
    pub feed: String,
    /// Rotation, always with its sign.
    pub rotation: String,
    /// Angle to set.
    pub set: String,
    /// The rest in one line.
    pub rest: String,
    /// Whether the springback rests on theory.
    pub unsure: bool,
}

/// A program that could be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// What stops the part from being bent so.
    pub stops: Vec<String>,
    /// The sense of rotations and how to read the figures.
    pub rotation: String,
    /// Blank and trims.
    pub blank: Vec<Fact>,
    /// The steps.
    pub steps: Vec<StepLine>,
    /// The setup list.
    pub setup: Vec<Fact>,
    /// What to be careful of.
    pub cautions: Vec<String>,
    /// The steps as comma-separated text.
    pub table: String,
}

/// What the panel shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The end that is bent first.
    pub from: End,
    /// The side to which the machine bends.
    pub hand: Hand,
    /// The side to which the shop's machine bends.
    pub hand_of_shop: Hand,
    /// How many bends there are, where they are too many to be worked out unasked.
    pub too_long: Option<usize>,
    /// The program, or why there is none; nothing yet where it is too long.
    pub sheet: Option<Result<Sheet, String>>,
}

impl Sheet {
    /// Whether anything on it must look unsure.
    pub fn unsure(&self) -> bool {
        let facts = self.blank.iter().chain(&self.setup).any(|fact| fact.unsure);
        facts || self.steps.iter().any(|step| step.unsure)
    }

    fn of(plan: &Plan, setup: Setup, words: Words) -> Self {
        let stop = |finding: &&elbowroom_bending::Finding| finding.severity == Severity::Stop;
        let mut stops: Vec<String> = plan.findings().iter().filter(stop).map(|finding| finding.text.clone()).collect();
        if let Some((step, missing)) = plan.used_up() {
            let place = match plan.drawn_bend(step) {
                Some(bend) => format!("the straight before step {} (bend {})", step + 1, bend + 1),
                None => "the tail".into(),
            };
            stops.push(format!("springback uses up {place}: {} are missing.", words.length(missing, false)));
        }
        let mut setup_facts: Vec<Fact> = setup
            .items
            .into_iter()
            .map(|item| Fact { name: item.what, value: item.value, source: item.source, unsure: item.unsure })
            .collect();
        if plan.theory_only() {
            let advice = TRIAL_ADVICE.to_owned();
            setup_facts.push(Fact { name: "Springback", value: advice, source: "theory".into(), unsure: true });
        }
        Self {
            stops,
            rotation: format!(
                "Rotation is positive {ROTATION_SENSE}. Feed of step 1 includes the lead trim. Lengths in {}.",
                words.unit.symbol()
            ),
            blank: blank(plan, words),
            steps: plan.program.steps.iter().enumerate().map(|pair| line(plan, pair, words)).collect(),
            setup: setup_facts,
            cautions: setup.cautions.into_iter().map(|caution| caution.text).collect(),
            table: table(plan),
        }
    }
}

fn blank(plan: &Plan, words: Words) -> Vec<Fact> {
    let program = &plan.program;
    let theory = plan.theory_only();
    // The figure itself carries the mark.
    let fact =
        |name, length, unsure| Fact { name, value: words.length(length, unsure), source: String::new(), unsure: false };
    let mut facts = vec![fact("Blank", program.blank, theory)];
    for (name, trim) in [("Lead trim", program.lead_trim), ("Tail trim", program.tail_trim)] {
        if trim.mm() > 0.0 {
            facts.push(fact(name, trim, false));
        }
    }
    facts
}

fn line(plan: &Plan, (index, step): (usize, &Step), words: Words) -> StepLine {
    let unsure = plan.springback_of_step.get(index).is_some_and(|springback| springback.unsure());
    let bend = plan.drawn_bend(index).unwrap_or(index);
    StepLine {
        number: index + 1,
        bend,
        feed: words.bare(step.feed, unsure),
        rotation: words.rotation(step.rotation),
        set: words.angle(step.set_angle, unsure),
        rest: format!(
            "bend {} as drawn, {} when free; CLR {} to {}; clamp {}; mark {}, takes up {}",
            bend + 1,
            words.angle(step.free_angle, false),
            words.bare(step.forming.die_clr, false),
            words.bare(step.free_clr, unsure),
            words.bare(step.forming.clamp, false),
            words.bare(step.mark, unsure),
            words.bare(step.take_up, unsure),
        ),
        unsure,
    }
}

/// The steps as comma-separated text: a header with units, then one line a step.
fn table(plan: &Plan) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    // Writing to memory does not fail, and rows are as wide as their header.
    let _ = writer.write_record(COLUMNS);
    for row in rows(plan) {
        let _ = writer.write_record(row);
    }
    writer.into_inner().map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).unwrap_or_default()
}

impl Model {
    /// The program of a workbench, unless it has very many bends.
    pub fn of(workbench: &Workbench) -> Self {
        let bends = workbench.solved().bends.len();
        if bends <= MOST_BENDS {
            return Self::at_any_length(workbench);
        }
        Self { too_long: Some(bends), sheet: None, ..Self::empty(workbench) }
    }

    /// The program of a workbench, however long it takes.
    pub fn at_any_length(workbench: &Workbench) -> Self {
        let empty = Self::empty(workbench);
        let (part, shop) = (workbench.part(), workbench.shop());
        let sheet = plan(part, shop, empty.from, empty.hand)
            .map(|plan| Sheet::of(&plan, Setup::of(&plan, shop), Words { unit: part.units }))
            .map_err(|why| why.to_string());
        Self { sheet: Some(sheet), ..empty }
    }

    fn empty(workbench: &Workbench) -> Self {
        let (screen, shop) = (workbench.screen(), workbench.shop());
        Self {
            from: screen.program_from,
            hand: screen.program_hand.unwrap_or(shop.machine.hand),
            hand_of_shop: shop.machine.hand,
            too_long: None,
            sheet: None,
        }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let from = match self.from {
            End::Lead => "start",
            End::Tail => "finish",
        };
        let hand = match self.hand {
            Hand::Left => "left",
            Hand::Right => "right",
        };
        writeln!(out, "Bend program, from the {from}, machine bends {hand}")?;
        let sheet = match &self.sheet {
            None => return writeln!(out, "{} bends: worked out on demand", self.too_long.unwrap_or_default()),
            Some(Err(why)) => return writeln!(out, "There is no program: {why}."),
            Some(Ok(sheet)) => sheet,
        };
        for stop in &sheet.stops {
            writeln!(out, "Stop: {stop}")?;
        }
        writeln!(out, "{}", sheet.rotation)?;
        for fact in &sheet.blank {
            writeln!(out, "{fact}")?;
        }
        for step in &sheet.steps {
            let StepLine { number, feed, rotation, set, rest, .. } = step;
            writeln!(out, "{number}. feed {feed}, rotation {rotation}, set {set}")?;
            writeln!(out, "   {rest}")?;
        }
        writeln!(out, "\nSetup")?;
        for fact in &sheet.setup {
            writeln!(out, "{fact}")?;
        }
        writeln!(out, "\nTake care")?;
        for caution in &sheet.cautions {
            writeln!(out, "- {caution}")?;
        }
        if sheet.unsure() { writeln!(out, "\n{UNSURE_LEGEND}") } else { Ok(()) }
    }
}

impl fmt::Display for Fact {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mark = if self.unsure { UNSURE_MARK } else { "" };
        write!(out, "{mark}{}: {}", self.name, self.value)?;
        if self.source.is_empty() { Ok(()) } else { write!(out, " ({})", self.source) }
    }
}
