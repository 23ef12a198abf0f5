//! The program as a plain value.

use std::fmt;

use elbowroom_bending::plan::Plan;
use elbowroom_bending::program_sheet::{NOTHING_BENT, ProgramSheet, SheetStep};
use elbowroom_bending::program_table::{COLUMNS, rows};
use elbowroom_bending::setup::{Setup, UNSURE_LEGEND, UNSURE_MARK};
use elbowroom_bending::{End, Hand, Shop};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::Workbench;

/// Beyond so many bends a program is worked out only on demand. A program of so many takes some
/// milliseconds on a slow machine; the frame has thirty.
const MOST_BENDS: usize = 1000;

/// A program that could be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Everything on it.
    pub said: ProgramSheet,
    /// The part, its tube, the shop and its machine, for a sheet that is taken along.
    pub about: Vec<(&'static str, String)>,
    /// The unit of the steps' lengths.
    pub unit: LengthUnit,
    /// The steps as comma-separated text.
    pub table: String,
    /// The piece after which measured pieces ask for a correction, counted from 1, and whether it is in the figures.
    pub correction: Option<(usize, bool)>,
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
    fn of(plan: &Plan, shop: &Shop) -> Self {
        let mut about =
            vec![("Part", plan.part.name.clone()), ("Shop", shop.name.clone()), ("Machine", shop.machine.name.clone())];
        about.retain(|(_, value)| !value.is_empty());
        let said = ProgramSheet::of(plan, shop, Setup::of(plan, shop));
        let correction = plan.program.correction.as_ref();
        let correction = correction.map(|correction| (correction.after(), !correction.put_aside));
        Self { said, about, unit: plan.part.units, table: table(plan), correction }
    }
}

/// The rest of a step in one line, beside what is set.
pub(super) fn rest(step: &SheetStep) -> String {
    let bend = step.bend.map_or_else(String::new, |bend| format!("bend {} as drawn, ", bend + 1));
    let SheetStep { free, die_clr, free_clr, clamp, mark, take_up, .. } = step;
    format!(
        "{bend}{free}° when free; CLR {die_clr} to {free_clr}; clamp {clamp}; mark {mark}, takes up {take_up}; {}",
        step.die
    )
}

/// The steps of a plan as comma-separated text: a header with units, then one line a step.
pub(crate) fn table(plan: &Plan) -> String {
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
        let made = match workbench.judged().as_deref() {
            Some(Ok(judged)) => Ok(judged.job.planned(&judged.plan)),
            Some(Err(why)) => Err(why.to_string()),
            None => Plan::of(part, shop, workbench.solved()).map_err(|why| why.to_string()),
        };
        let sheet = made.map(|plan| Sheet::of(&plan, shop));
        Self { sheet: Some(sheet), ..empty }
    }

    fn empty(workbench: &Workbench) -> Self {
        let (tooling, shop) = (&workbench.part().tooling, workbench.shop());
        Self {
            from: tooling.from,
            hand: tooling.hand_in(shop),
            hand_of_shop: shop.machine.hand,
            too_long: None,
            sheet: None,
        }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let from = match self.from {
            End::Start => "start",
            End::Finish => "finish",
        };
        let hand = match self.hand {
            Hand::Left => "left",
            Hand::Right => "right",
        };
        writeln!(out, "Bend program, from the {from}, machine bends {hand}")?;
        match &self.sheet {
            None => writeln!(out, "{} bends: worked out on demand", self.too_long.unwrap_or_default()),
            Some(Err(why)) => writeln!(out, "There is no program: {why}."),
            Some(Ok(sheet)) => write!(out, "{sheet}"),
        }
    }
}

impl fmt::Display for Sheet {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = &self.said;
        for (name, value) in &self.about {
            writeln!(out, "{name}: {value}")?;
        }
        for words in said.stops() {
            writeln!(out, "Stop: {words}")?;
        }
        for one in said.head.iter().chain(&said.blank) {
            line(out, "", &one.name, &one.value, &one.source)?;
        }
        writeln!(out, "\nSteps, {} and degrees", self.unit.name())?;
        if said.steps.is_empty() {
            writeln!(out, "{NOTHING_BENT}")?;
        }
        for step in &said.steps {
            let SheetStep { number, feed, rotation, set, .. } = step;
            writeln!(out, "{number}. feed {feed}, rotation {rotation}°, set {set}°")?;
            writeln!(out, "   {}", rest(step))?;
        }
        if !said.steps.is_empty() {
            writeln!(out, "{}\n\nSpringback", said.explained)?;
        }
        for one in &said.springback {
            line(out, mark(one.unsure), &one.name, &one.value, &one.source)?;
        }
        if let Some(advice) = said.advice {
            writeln!(out, "{advice}")?;
        }
        writeln!(out, "\nVerdict\n{}", said.verdict.text)?;
        for finding in &said.findings {
            writeln!(out, "{}: {}", finding.severity.word(), finding.text)?;
        }
        writeln!(out, "\nSetup")?;
        for item in &said.setup {
            line(out, mark(item.unsure), item.what, &item.value, &item.source)?;
        }
        writeln!(out, "\nTake care")?;
        for caution in &said.cautions {
            writeln!(out, "- {} ({})", caution.text, caution.source)?;
        }
        if said.unsure() { writeln!(out, "\n{UNSURE_LEGEND}") } else { Ok(()) }
    }
}

/// What stands before the name of an unsure line.
pub(super) const fn mark(unsure: bool) -> &'static str {
    if unsure { UNSURE_MARK } else { "" }
}

fn line(out: &mut fmt::Formatter<'_>, mark: &str, name: &str, value: &str, source: &str) -> fmt::Result {
    write!(out, "{mark}{name}: {value}")?;
    if source.is_empty() { writeln!(out) } else { writeln!(out, " ({source})") }
}
