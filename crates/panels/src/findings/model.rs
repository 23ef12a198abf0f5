//! What the findings say.

use std::fmt;

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{Facts, Fault, NodeId, Numbering, Place, Severity, Told, ToldCure, Unit};
use elbowroom_geometry::units::{LengthUnit, Shown};
use elbowroom_workbench::{Target, Workbench};

use crate::told;
use crate::widgets::UNSURE;

/// One finding, ready to be shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its place in the solved order, counted from 0.
    pub index: usize,
    /// How grave it is.
    pub severity: Severity,
    /// The check's name, for its manual page.
    pub fault: Fault,
    /// What its check is called.
    pub title: &'static str,
    /// Where: `Bend 3`, `Straight before bend 4`, `Tail`, or `Whole tube`; two places are joined by "and".
    pub place: String,
    /// What a pointer over it points at.
    pub target: Option<Target<NodeId>>,
    /// The sentence.
    pub text: String,
    /// Measured and limit, with their unit.
    pub figures: String,
    /// The cures, best first.
    pub cures: Vec<ToldCure>,
    /// Where a cure of another finding, offered there, cures this one too: what that one is called.
    pub cured_with: Option<String>,
    /// Whether its place is selected.
    pub selected: bool,
}

/// What the findings say.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The findings, worst first: all of them, or the first ones where there are many.
    pub items: Vec<Item>,
    /// How many there are at stop, caution and note.
    pub counts: [usize; 3],
    /// What lies under the pointer.
    pub hover: Option<Target<NodeId>>,
}

impl Model {
    /// All findings on the part that is shown.
    pub fn of(workbench: &Workbench) -> Self {
        Self::told(workbench, told::State::default().first(workbench, usize::MAX))
    }

    /// The first of the findings on the part that is shown, in words. The others are only counted: to write all of a flood
    /// takes longer than a frame.
    pub(crate) fn told(workbench: &Workbench, told: &[Told]) -> Self {
        let unit = workbench.part().units;
        let selection = workbench.selection_by_id();
        let nodes = &workbench.solved().nodes;
        let items = told.iter().enumerate().map(|(index, finding)| {
            let mut item = Item::new(index, finding.clone(), nodes, unit);
            item.selected = item.target.is_some_and(|target| selection.contains(target));
            item.cured_with = finding.cured_with.and_then(|first| told.get(first)).map(|first| called(first, nodes));
            item
        });
        let severities = workbench.solved().findings.iter().map(|finding| finding.severity);
        Self { items: items.collect(), counts: counts(severities), hover: workbench.hover_by_id() }
    }

    /// Whether a figure among them must look unsure.
    pub fn unsure(&self) -> bool {
        self.items.iter().any(|item| item.text.contains(UNSURE) || item.figures.contains(UNSURE))
    }

    /// How many there are of a severity.
    pub fn count(&self, severity: Severity) -> usize {
        let [stops, cautions, notes] = self.counts;
        match severity {
            Severity::Stop => stops,
            Severity::Caution => cautions,
            Severity::Note => notes,
        }
    }

    /// These items, and no more.
    pub fn of_items(items: Vec<Item>) -> Self {
        Self { counts: counts(items.iter().map(|item| item.severity)), items, hover: None }
    }
}

/// How many there are at stop, caution and note.
fn counts(severities: impl Iterator<Item = Severity>) -> [usize; 3] {
    let mut counts = [0; 3];
    for severity in severities {
        counts[Severity::Stop as usize - severity as usize] += 1;
    }
    counts
}

impl Item {
    /// A finding on a part of these bends that shows its lengths in a unit.
    pub fn new(index: usize, told: Told, nodes: &Numbering, unit: LengthUnit) -> Self {
        let (finding, bends) = (&told.facts, nodes.bends());
        let (mut place, target) = named(&finding.place, bends);
        for also in &finding.also {
            let (name, _) = named(also, bends);
            place += &format!(" and {}{}", name[..1].to_lowercase(), &name[1..]);
        }
        Self {
            index,
            severity: finding.severity,
            fault: finding.fault,
            title: told.title,
            place,
            target: target.map(|target| target.named(nodes)),
            figures: figures(finding, unit),
            text: told.text,
            cures: told.cures,
            cured_with: None,
            selected: false,
        }
    }
}

/// What a finding is called in a line about another one.
fn called(told: &Told, nodes: &Numbering) -> String {
    let (place, _) = named(&told.facts.place, nodes.bends());
    format!("{place}: {}", told.title)
}

/// What a place is called, and what a pointer over it points at.
fn named(place: &Place, bends: usize) -> (String, Option<Target>) {
    match (place.bend, place.straight) {
        (Some(bend), _) => (format!("Bend {}", bend + 1), Some(Target::Bend(bend))),
        (None, Some(straight)) if straight >= bends => ("Finish".to_owned(), Some(Target::Straight(straight))),
        (None, Some(straight)) => (format!("Straight before bend {}", straight + 1), Some(Target::Straight(straight))),
        (None, None) => ("Whole tube".to_owned(), None),
    }
}

fn figures(finding: &Facts, unit: LengthUnit) -> String {
    let shown = |value: f64| match finding.unit {
        Unit::Millimetre => unit.shown(value),
        Unit::Degree => Shown::new(value, 1, "°"),
        Unit::Count => Shown::new(value, 0, ""),
        Unit::Percent => Shown::new(value, 1, " %"),
    };
    let figure = |value: f64, basis: Option<Ground>| {
        let mark = if basis.is_some_and(Ground::unsure) { UNSURE } else { "" };
        if value.is_finite() { shown(value).behind(mark).to_string() } else { "none".to_owned() }
    };
    let measured = figure(finding.measured, finding.measured_basis);
    // A smallest length is told upwards, as in the sentence: what is shown is enough.
    let is_least = finding.unit == Unit::Millimetre && finding.measured < finding.limit;
    let limit = if is_least { unit.at_least_mm(finding.limit) } else { finding.limit };
    format!("Measured {measured}, limit {}", figure(limit, finding.limit_basis))
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.items.is_empty() {
            return writeln!(formatter, "nothing found");
        }
        let count = |severity| self.count(severity);
        let (stops, cautions, notes) = (count(Severity::Stop), count(Severity::Caution), count(Severity::Note));
        writeln!(formatter, "{stops} stop, {cautions} caution, {notes} note")?;
        for item in &self.items {
            let star = if item.selected { "*" } else { "" };
            writeln!(formatter, "[{}] {}{star}: {}", item.severity.word(), item.place, item.title)?;
            writeln!(formatter, "  {}", item.text)?;
            writeln!(formatter, "  {}", item.figures)?;
            for cure in &item.cures {
                writeln!(formatter, "  ({}) {}", cure.label, cure.risk)?;
                if !cure.outcome.is_empty() {
                    writeln!(formatter, "    {}", cure.outcome)?;
                }
            }
            if let Some(first) = &item.cured_with {
                writeln!(formatter, "  Goes with a cure of {first}")?;
            }
        }
        Ok(())
    }
}
