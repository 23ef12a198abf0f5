//! What the forming sheet shows, as a plain value.

use std::fmt;

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{Numbering, Solved};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::{Target, Workbench};

use super::legs::LegsView;
use super::seam::SeamView;
use super::{bend, material};
use crate::widgets::figure_text;

/// A figure by its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is.
    pub name: String,
    /// The figure with its unit.
    pub value: String,
    /// What it rests on.
    pub ground: Ground,
    /// Where it comes from, or what it means.
    pub note: String,
    /// Whether the note stands beneath it; else the pointer over the figure tells it.
    pub show_note: bool,
}

/// Figures that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// What they are about.
    pub title: &'static str,
    /// The figures.
    pub rows: Vec<Row>,
    /// What there is to say about all of them; empty where nothing.
    pub note: String,
    /// Whether it lies open until somebody closes it.
    pub open: bool,
}

/// What the sheet shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The bend that is shown, counted from 0.
    pub bend: Option<usize>,
    /// The bends that can be shown.
    pub bends: Vec<usize>,
    /// The ids of all bends.
    pub nodes: Numbering,
    /// The legs of the bend that is shown; none where it is no U.
    pub legs: Option<LegsView>,
    /// What bending does at the bend that is shown.
    pub of_bend: Vec<Group>,
    /// The seam; none for seamless tube.
    pub seam: Option<SeamView>,
    /// Mass and material.
    pub of_part: Vec<Group>,
}

impl Row {
    /// A figure whose note is told by the pointer.
    pub fn new(name: impl Into<String>, value: String, ground: Ground, note: impl Into<String>) -> Self {
        Self { name: name.into(), value, ground, note: note.into(), show_note: false }
    }

    /// The same with its note beneath it.
    #[must_use]
    pub fn noted(self) -> Self {
        Self { show_note: true, ..self }
    }
}

impl Model {
    /// The sheet of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let (part, shop, solved) = (workbench.part(), workbench.shop(), workbench.solved());
        let bends: Vec<usize> = (0..solved.bends.len()).filter(|&bend| solved.bends[bend].formed.is_some()).collect();
        let bend = choose(workbench, solved, &bends);
        let of_bend = bend.map_or_else(Vec::new, |bend| bend::groups(part, shop, solved, bend));
        Self {
            unit: part.units,
            bend,
            bends,
            nodes: solved.nodes.clone(),
            legs: bend.and_then(|bend| LegsView::of(part, shop, solved, bend)),
            of_bend,
            seam: SeamView::of(part, shop, solved),
            of_part: material::groups(part, shop, solved),
        }
    }
}

/// The bend to show: the selected one, else the one that is stretched most.
fn choose(workbench: &Workbench, solved: &Solved, bends: &[usize]) -> Option<usize> {
    let selected = workbench.selection().bend().or_else(|| match workbench.selection().primary() {
        Some(Target::Straight(index)) => Some(index),
        _ => None,
    });
    if let Some(bend) = selected.filter(|bend| bends.contains(bend)) {
        return Some(bend);
    }
    let stretch = |bend: &usize| solved.bends[*bend].formed.map_or(0.0, |formed| formed.outer_stretch);
    // The first of those that are stretched alike.
    bends.iter().copied().reduce(|most, bend| if stretch(&bend) > stretch(&most) { bend } else { most })
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.bend {
            Some(bend) => writeln!(out, "bend {} of {}", bend + 1, self.bends.len())?,
            None => writeln!(out, "nothing is bent")?,
        }
        if let Some(legs) = &self.legs {
            write!(out, "{legs}")?;
        }
        for group in &self.of_bend {
            write!(out, "{group}")?;
        }
        if let Some(seam) = &self.seam {
            write!(out, "{seam}")?;
        }
        for group in &self.of_part {
            write!(out, "{group}")?;
        }
        Ok(())
    }
}

impl fmt::Display for Group {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}", self.title)?;
        for row in &self.rows {
            write!(out, "  {}: {}", row.name, figure_text(&row.value, row.ground))?;
            if row.note.is_empty() { writeln!(out)? } else { writeln!(out, " ({})", row.note)? }
        }
        if self.note.is_empty() { Ok(()) } else { writeln!(out, "  {}", self.note) }
    }
}
