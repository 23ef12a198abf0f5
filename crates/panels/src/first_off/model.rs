//! The measured first-off beside its design, as a plain value.

use std::fmt;

use elbowroom_bending::first_off::Tolerance;
use elbowroom_bending::measurement::FirstOff;
use elbowroom_bending::plan::Plan;
use elbowroom_bending::program::ROTATION_SENSE;
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length, format_number};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::{Judged, Workbench};

/// What the sheet shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// What a first-off is judged by.
    pub tolerance: Tolerance,
    /// Whether the person has set that.
    pub tolerance_is_own: bool,
    /// How many times as large the ghost draws what the first-off strays.
    pub magnification: f64,
    /// How it stands.
    pub stand: Stand,
}

/// How it stands with the first-off.
#[derive(Clone, Debug, PartialEq)]
pub enum Stand {
    /// Nothing was measured.
    Nothing,
    /// The part has no program to judge by, and why.
    NoProgram(String),
    /// The measurement is doubted, and why.
    Doubted(String),
    /// It was judged.
    Judged(Box<View>),
}

/// What came of it.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// Whether everything lies within the tolerance.
    pub within: bool,
    /// The verdict in one sentence.
    pub verdict: String,
    /// Deviations: heads and rows, the last column saying which rows are out of tolerance.
    pub off: Table,
    /// The program for the next piece.
    pub next: Table,
    /// The blank for the next piece, in words.
    pub blank: String,
    /// Whether the program rests on theory.
    pub unsure: bool,
}

/// A table of text.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// The heads.
    pub head: Vec<&'static str>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its cells.
    pub cells: Vec<String>,
    /// Whether it is to stand out: out of tolerance, or changed.
    pub marked: bool,
}

impl Model {
    /// The first-off of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let unit = workbench.part().units;
        let stand = match workbench.judged().as_deref() {
            None => Stand::Nothing,
            Some(Err(refusal)) => Stand::NoProgram(refusal.to_string()),
            Some(Ok(Judged { first_off: Err(doubt), .. })) => Stand::Doubted(doubt.to_string()),
            Some(Ok(Judged { plan, first_off: Ok(first_off) })) => {
                Stand::Judged(Box::new(View::of(plan, first_off, unit)))
            }
        };
        Self {
            unit,
            tolerance: workbench.tolerance(),
            tolerance_is_own: workbench.tolerance_is_own(),
            magnification: workbench.ghost_magnification(),
            stand,
        }
    }
}

impl View {
    fn of(plan: &Plan, first_off: &FirstOff, unit: LengthUnit) -> Self {
        let length = |length: Length| format_length(length, unit, unit.decimals());
        let blank = match (plan.program.blank, first_off.next.blank) {
            (was, next) if (was - next).abs() < SAME_LENGTH => format!("Cut the blank to {} as before.", length(next)),
            (was, next) => format!("Cut the blank to {}; it was {}.", length(next), length(was)),
        };
        Self {
            within: first_off.within,
            verdict: first_off.verdict(),
            off: off(first_off, unit),
            next: next(plan, first_off, unit),
            blank,
            unsure: plan.springback_of_step.iter().any(|springback| springback.unsure()),
        }
    }
}

/// Below this a length is shown as the same.
const SAME_LENGTH: Length = Length::from_mm(0.05);

/// Measured less drawn, vertex by vertex with the straight before it and its bend.
fn off(first_off: &FirstOff, unit: LengthUnit) -> Table {
    let (found, tolerance) = (&first_off.found, first_off.tolerance);
    let mm = |mm: f64| signed_text(mm / unit.in_mm(), unit.decimals());
    let degrees = |angle: Angle| signed_text(angle.degrees(), 1);
    let last = found.vertex_off_mm.len().saturating_sub(1);
    let row = |vertex: usize| {
        let straight = vertex.checked_sub(1).and_then(|before| found.straight_off_mm.get(before));
        let bend = vertex.checked_sub(1).filter(|_| vertex < last);
        let (rotation, angle) =
            (bend.and_then(|b| found.rotation_off.get(b)), bend.and_then(|b| found.angle_off.get(b)));
        let vertex_mm = found.vertex_off_mm[vertex];
        let too_long = |mm: &f64| mm.abs() > tolerance.length.mm();
        let too_wide = |off: &Angle| off.abs() > tolerance.angle;
        let out = too_long(&vertex_mm)
            || straight.is_some_and(too_long)
            || rotation.is_some_and(too_wide)
            || angle.is_some_and(too_wide);
        let name = match vertex {
            0 => "lead end".to_owned(),
            _ if vertex == last => "tail end".to_owned(),
            _ => format!("bend {vertex}"),
        };
        let text = |off: Option<String>| off.unwrap_or_default();
        let cells = vec![
            name,
            format_number(vertex_mm / unit.in_mm(), unit.decimals()),
            text(straight.map(|off| mm(*off))),
            text(rotation.filter(|_| vertex > 1).map(|off| degrees(*off))),
            text(angle.map(|off| degrees(*off))),
            if out { "out".to_owned() } else { String::new() },
        ];
        Row { cells, marked: out }
    };
    Table { head: vec!["At", "Off", "Straight", "Rotation", "Angle", ""], rows: (0..=last).map(row).collect() }
}

/// The program for the next piece, what was set beside what is to be set.
fn next(plan: &Plan, first_off: &FirstOff, unit: LengthUnit) -> Table {
    let length = |length: Length| format_number(length.mm() / unit.in_mm(), unit.decimals());
    let degrees = |angle: Angle| format_number(angle.degrees(), 1);
    let both = |was: String, now: String| if was == now { now } else { format!("{now}\nwas {was}") };
    let steps = plan.program.steps.iter().zip(&first_off.next.steps).enumerate();
    let rows = steps.map(|(index, (was, now))| {
        let cells = vec![
            (index + 1).to_string(),
            both(length(was.feed), length(now.feed)),
            both(degrees(was.rotation), degrees(now.rotation)),
            both(degrees(was.set_angle), degrees(now.set_angle)),
            both(length(was.mark), length(now.mark)),
        ];
        let marked = cells.iter().any(|cell| cell.contains("was"));
        Row { cells, marked }
    });
    Table { head: vec!["Step", "Feed", "Rotation", "Set angle", "Mark"], rows: rows.collect() }
}

/// A figure with its sign.
fn signed_text(value: f64, decimals: usize) -> String {
    let text = format_number(value, decimals);
    if value > 0.0 && text.chars().any(|digit| ('1'..='9').contains(&digit)) { format!("+{text}") } else { text }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let own = if self.tolerance_is_own { "own" } else { "usual" };
        let (angle, length) = (format_angle(self.tolerance.angle, 1), self.tolerance.length);
        writeln!(out, "tolerance: {angle}, {}, {own}", format_length(length, self.unit, self.unit.decimals()))?;
        writeln!(out, "ghost: {} times", self.magnification)?;
        match &self.stand {
            Stand::Nothing => writeln!(out, "nothing was measured"),
            Stand::NoProgram(why) => writeln!(out, "no program: {why}"),
            Stand::Doubted(why) => writeln!(out, "doubted: {why}"),
            Stand::Judged(view) => {
                writeln!(out, "{}", view.verdict)?;
                for (name, table) in [("off", &view.off), ("next", &view.next)] {
                    writeln!(out, "{name}: {}", table.head.join(" | "))?;
                    for row in &table.rows {
                        let cells = row.cells.join(" | ").replace('\n', ", ");
                        writeln!(out, "  {}", cells.trim_end_matches([' ', '|']))?;
                    }
                }
                writeln!(out, "{}", view.blank)?;
                writeln!(out, "rotation positive {ROTATION_SENSE}")?;
                if view.unsure { writeln!(out, "rests on theory") } else { Ok(()) }
            }
        }
    }
}
