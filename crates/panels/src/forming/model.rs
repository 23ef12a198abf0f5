//! What the forming sheet shows, as a plain value.

use std::fmt;

use elbowroom_bending::{Numbering, Solved};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::{Target, Workbench};

use super::group::Group;
use super::legs::LegsView;
use super::seam::SeamView;
use super::{bend, material};

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
    let stretch = |bend: &usize| solved.bends[*bend].formed.map_or(0.0, |formed| formed.outer_stretch());
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
