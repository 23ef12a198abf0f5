//! The measured pieces beside their design, as a plain value.

use std::fmt;

use elbowroom_bending::Shop;
use elbowroom_bending::first_off::job::{JudgedPiece, drawn_bends, end_word, hand_word};
use elbowroom_bending::first_off::points::{Layout, Spot};
use elbowroom_bending::first_off::{Comparison, Tolerance, ToleranceChoice};
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length};
use elbowroom_workbench::{Judged, Workbench};

use super::deviations::{self, Table};
use super::next::Next;
use crate::program::Choice;

/// What the sheet shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// From which end and to which side the next piece is bent.
    pub choice: Choice,
    /// What pieces are judged by.
    pub tolerance: Tolerance,
    /// What of that the person has chosen.
    pub chosen: ToleranceChoice,
    /// How many times as large the ghost draws what the last piece strays.
    pub magnification: f64,
    /// How many points there are to measure.
    pub points: usize,
    /// The bends that give two points, counted from 0 as drawn.
    pub by_arc_ends: Vec<usize>,
    /// How many pieces were measured.
    pub pieces: usize,
    /// How it stands.
    pub stand: Stand,
}

/// How it stands with the pieces.
#[derive(Clone, Debug, PartialEq)]
pub enum Stand {
    /// Nothing was measured.
    Nothing,
    /// The part has no program to judge by, and why.
    NoProgram(String),
    /// They were judged.
    Judged(Box<View>),
}

/// What came of them.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// Whether the last piece lies within the tolerance; `None` where it could not be compared.
    pub within: Option<bool>,
    /// What came of the last piece, in a sentence.
    pub verdict: String,
    /// Every piece in a line.
    pub pieces: Vec<PieceLine>,
    /// What the last piece is off, in the order of the drawing.
    pub off: Option<Table>,
    /// What was compared with what.
    pub compared: Option<String>,
    /// The program for the next piece; `None` where no piece counts.
    pub next: Option<Next>,
    /// What is said where there is none.
    pub no_correction: &'static str,
}

/// One piece in a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PieceLine {
    /// Such as `Piece 2, bent by the correction after piece 1`.
    pub name: String,
    /// How it came out, in a few words.
    pub came_out: String,
    /// Why it does not count in the next program.
    pub aside: Option<String>,
    /// Whether a person who has measured it again can stand by it.
    pub can_be_stood_by: bool,
    /// What is said where the person stands by it though it was doubted.
    pub stood_by: Option<String>,
}

impl Model {
    /// The pieces of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let unit = workbench.part().units;
        let tolerance = workbench.tolerance();
        let choice = Choice::of(workbench);
        let stand = match workbench.judged().as_deref() {
            None => Stand::Nothing,
            Some(Err(refusal)) => Stand::NoProgram(refusal.to_string()),
            Some(Ok(judged)) => Stand::Judged(Box::new(View::of(judged, &tolerance, workbench.shop(), unit))),
        };
        let solved = workbench.solved();
        let bends: Vec<(usize, Angle)> = solved
            .bends
            .iter()
            .zip(solved.form.path.rows())
            .enumerate()
            .filter(|(_, (bend, _))| bend.is_bent())
            .map(|(index, (_, row))| (index, row.angle))
            .collect();
        let layout = Layout::usual(bends.iter().map(|(_, angle)| *angle));
        let arcs = layout.spots().into_iter().filter_map(|spot| match spot {
            Spot::ArcStart(bend) => Some(bends[bend].0),
            _ => None,
        });
        Self {
            unit,
            choice,
            tolerance,
            chosen: workbench.tolerance_choice(),
            magnification: workbench.ghost_magnification(),
            points: layout.points(),
            by_arc_ends: arcs.collect(),
            pieces: workbench.pieces().len(),
            stand,
        }
    }

    /// Whether the next piece is bent by a correction and not by the plan.
    pub fn corrected(&self) -> bool {
        matches!(&self.stand, Stand::Judged(view) if view.next.as_ref().is_some_and(|next| next.correction.1))
    }

    /// Whether the last piece is drawn as a ghost.
    pub fn has_ghost(&self) -> bool {
        matches!(&self.stand, Stand::Judged(view) if view.off.is_some())
    }
}

impl View {
    fn of(judged: &Judged, tolerance: &Tolerance, shop: &Shop, unit: LengthUnit) -> Self {
        let Judged { plan, job } = judged;
        let last = job.last();
        let line = |(index, piece): (usize, &JudgedPiece)| PieceLine {
            name: format!("Piece {}, {}", index + 1, piece.bent_by()),
            came_out: came_out(piece, tolerance, unit),
            aside: piece.aside.as_ref().map(ToString::to_string),
            can_be_stood_by: piece.can_be_stood_by(),
            stood_by: piece.stood_by(),
        };
        Self {
            within: last.and_then(|last| last.within(tolerance)),
            verdict: last.map_or_else(String::new, |last| last.verdict(tolerance, unit)),
            pieces: job.pieces.iter().enumerate().map(line).collect(),
            off: last
                .and_then(|last| last.found.as_ref())
                .map(|found| deviations::of(found, &drawn_bends(plan), tolerance, unit)),
            compared: last.and_then(|last| last.found.as_ref()).map(Comparison::compared),
            no_correction: job.no_correction(),
            next: (!job.rests_on.is_empty()).then(|| Next::of(plan, job, &shop.machine, unit)),
        }
    }
}

fn came_out(piece: &JudgedPiece, tolerance: &Tolerance, unit: LengthUnit) -> String {
    let Some(found) = &piece.found else { return "not compared".into() };
    let (point_mm, _, angle) = found.worst();
    let word = if found.within(tolerance) { "within" } else { "out" };
    let point = format_length(elbowroom_geometry::Length::from_mm(point_mm), unit, unit.decimals());
    format!("{word}, up to {point} and {} off", format_angle(angle, 1))
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let own = if self.chosen.is_own() { "own" } else { "usual" };
        let (angle, length) = (format_angle(self.tolerance.angle, 1), self.tolerance.length);
        writeln!(out, "tolerance: {angle}, {}, {own}", format_length(length, self.unit, self.unit.decimals()))?;
        writeln!(out, "bent from the {}, machine bends {}", end_word(self.choice.from), hand_word(self.choice.hand))?;
        writeln!(out, "ghost: {} times", self.magnification)?;
        match &self.stand {
            Stand::Nothing => writeln!(out, "nothing was measured"),
            Stand::NoProgram(why) => writeln!(out, "no program: {why}"),
            Stand::Judged(view) => view.fmt(out),
        }
    }
}

impl fmt::Display for View {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}", self.verdict)?;
        for PieceLine { name, came_out, aside, stood_by, .. } in &self.pieces {
            let aside = aside.as_ref().map_or_else(String::new, |why| format!("; it does not count: {why}"));
            let stood_by = stood_by.as_ref().map_or_else(String::new, |words| format!(". {words}"));
            writeln!(out, "{name}: {came_out}{aside}{stood_by}")?;
        }
        if let Some(off) = &self.off {
            write!(out, "{off}")?;
        }
        if let Some(compared) = &self.compared {
            writeln!(out, "{compared}")?;
        }
        match &self.next {
            Some(next) => write!(out, "{next}"),
            None => writeln!(out, "{}", self.no_correction),
        }
    }
}
