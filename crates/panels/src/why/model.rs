//! Why a bend can or cannot be clamped, as a plain value: a drawing, gauges and sentences.

use std::fmt;

use elbowroom_bending::checks::{self, Drawing};
use elbowroom_bending::{Finding, Severity, Solved};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::{Target, Workbench};

use super::gauge::{Gauge, gauges};
use super::picture::Picture;
use super::sketch::Sketch;
use super::words::sentences;
use crate::widgets::UNSURE;

/// Why this bend and no other is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Chosen {
    /// It is selected, or the straight ahead of it.
    Selected,
    /// The first finding speaks of it.
    FirstFinding,
    /// Nothing is in the way anywhere; here the clamp has the least room.
    LeastRoom,
}

/// One bend and its clamp.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// The bend, counted from 0.
    pub bend: usize,
    /// Why this one.
    pub chosen: Chosen,
    /// The worst that the checks have to say about it.
    pub severity: Option<Severity>,
    /// The drawing; none where there is no clamp.
    pub sketch: Option<Sketch>,
    /// Measures against their limits.
    pub gauges: Vec<Gauge>,
    /// The same in plain words.
    pub sentences: Vec<String>,
}

impl Case {
    /// Whether a figure of it must look unsure.
    pub fn unsure(&self) -> bool {
        self.gauges.iter().any(|gauge| gauge.ground.unsure())
            || self.sentences.iter().any(|sentence| sentence.contains(UNSURE))
    }

    /// How grave the bite is by its own gauge, whatever else is found of the bend.
    pub fn bite_severity(&self) -> Option<Severity> {
        self.gauges.iter().find(|gauge| gauge.name == "Bite")?.zone()?.severity
    }
}

/// A finding that is not about the clamp.
#[derive(Clone, Debug, PartialEq)]
pub struct Explained {
    /// What its check is called.
    pub title: &'static str,
    /// Where: `bend 3`, or `the whole tube`.
    pub place: String,
    /// How grave it is.
    pub severity: Severity,
    /// The drawing; none where there is nothing to draw.
    pub picture: Option<Picture>,
    /// What was found.
    pub text: String,
    /// Why that matters, from the manual page.
    pub matters: String,
}

/// What the panel shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The finding that is explained; where it is about the clamp, or there is none, the clamp of a bend is.
    pub explained: Option<Explained>,
    /// The bend that is explained; none where the tube has no bend.
    pub case: Option<Case>,
}

impl Model {
    /// The panel of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let (part, shop, solved) = (workbench.part(), workbench.shop(), workbench.solved());
        let case = choose(workbench, solved).map(|(bend, chosen)| {
            let about = |finding: &&Finding| finding.place.bend == Some(bend);
            Case {
                bend,
                chosen,
                severity: solved.findings.iter().filter(about).map(|finding| finding.severity).max(),
                sketch: Sketch::of(solved, bend, part.tube.od.mm()),
                gauges: gauges(solved, shop, bend, part.units),
                sentences: sentences(part, shop, solved, bend),
            }
        });
        let explained = explained(workbench, solved, case.as_ref());
        Self { unit: part.units, case, explained }
    }
}

/// The finding to explain, where it is not about the clamp of the bend that would be shown.
fn explained(workbench: &Workbench, solved: &Solved, case: Option<&Case>) -> Option<Explained> {
    let of_bend = || {
        let bend = case?.bend;
        solved.findings.iter().find(|finding| finding.place.bend == Some(bend))
    };
    let first = || solved.findings.first();
    let finding = match workbench.explained() {
        Some(index) => solved.findings.get(index),
        None if case.is_none_or(|case| case.chosen != Chosen::Selected) => first(),
        None => of_bend(),
    }?;
    let has_clamp =
        finding.place.bend.is_some_and(|bend| solved.bends.get(bend).is_some_and(|made| made.clamp.is_some()));
    if finding.drawing() == Drawing::Clamp && has_clamp {
        return None;
    }
    let manual = checks::named(finding.fault).map_or("", |check| check.manual);
    Some(Explained {
        title: finding.title(),
        place: place(finding),
        severity: finding.severity,
        picture: Picture::of(workbench.part(), workbench.shop(), solved, finding),
        text: finding.found(&workbench.words()),
        matters: paragraph(manual, "Why it matters"),
    })
}

/// Where a finding is, in the middle of a heading.
fn place(finding: &Finding) -> String {
    match (finding.place.bend, finding.place.straight) {
        (Some(bend), _) => format!("bend {}", bend + 1),
        (None, Some(straight)) => format!("straight {}", straight + 1),
        (None, None) => "the whole tube".to_owned(),
    }
}

/// The paragraph of a manual page below a heading, on one line.
fn paragraph(manual: &str, heading: &str) -> String {
    let below = manual.lines().skip_while(|line| *line != heading).skip(1);
    below.take_while(|line| line.starts_with("  ")).map(str::trim).collect::<Vec<_>>().join(" ")
}

/// The bend to explain.
fn choose(workbench: &Workbench, solved: &Solved) -> Option<(usize, Chosen)> {
    let there = |bend: &usize| *bend < solved.bends.len();
    let selected = workbench.selection().bend().filter(there).or_else(|| {
        // The straight ahead of a bend is where its clamp sits.
        match workbench.selection().primary() {
            Some(Target::Straight(index)) => solved.bend_clamped_on(index),
            _ => None,
        }
    });
    // A finding that was gone to is explained with its own bend.
    let gone_to = workbench.explained().and_then(|index| solved.findings.get(index)?.place.bend).filter(there);
    if let Some(bend) = gone_to.or(selected) {
        return Some((bend, Chosen::Selected));
    }
    let found = solved.findings.iter().find_map(|finding| finding.place.bend).filter(there);
    if let Some(bend) = found {
        return Some((bend, Chosen::FirstFinding));
    }
    let spare_mm = |bend: usize| {
        let made = &solved.bends[bend];
        made.clamp.map_or(f64::INFINITY, |clamp| made.straight_ahead_mm - clamp.length_mm)
    };
    let least = (0..solved.bends.len()).min_by(|a, b| spare_mm(*a).total_cmp(&spare_mm(*b)));
    least.map(|bend| (bend, Chosen::LeastRoom))
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(explained) = &self.explained {
            writeln!(out, "{} at {}: {}", explained.severity.word(), explained.place, explained.title)?;
            if let Some(picture) = &explained.picture {
                writeln!(out, "{picture}")?;
            }
            return writeln!(out, "{}\n{}", explained.text, explained.matters);
        }
        let Some(case) = &self.case else { return writeln!(out, "no bend") };
        let severity = case.severity.map_or("fine", |severity| severity.word());
        writeln!(out, "bend {} ({:?}): {severity}", case.bend + 1, case.chosen)?;
        if let Some(sketch) = &case.sketch {
            writeln!(out, "{sketch}")?;
        }
        for gauge in &case.gauges {
            writeln!(out, "{gauge}")?;
        }
        for sentence in &case.sentences {
            writeln!(out, "{sentence}")?;
        }
        Ok(())
    }
}
