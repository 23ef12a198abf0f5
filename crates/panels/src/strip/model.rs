//! What the blank strip shows, as a plain value: the tube unrolled, in mm from the tip as drawn.

use std::collections::HashSet;

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{Cut, End, Fault, NodeId, Place, Severity, Solved, Told};
use elbowroom_geometry::units::{LengthUnit, format_number};
use elbowroom_workbench::{Target, Workbench};

use super::seam::SeamLine;
use crate::told;

/// A straight or an arc of the unrolled tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// What a click selects.
    pub target: Target,
    /// The id by which edits know it.
    pub id: NodeId,
    /// Where it starts, mm.
    pub from_mm: f64,
    /// Its length, mm; negative for a straight where two arcs overlap.
    pub length_mm: f64,
    /// Bend angle (radians) and radius (mm), for an arc.
    pub arc: Option<(f64, f64)>,
    /// Whether it is selected.
    pub selected: bool,
    /// Whether it lies under the pointer, here or in another view.
    pub hovered: bool,
}

impl Piece {
    /// What a click selects, by its id.
    pub fn named(&self) -> Target<NodeId> {
        match self.target {
            Target::Bend(_) => Target::Bend(self.id),
            _ => Target::Straight(self.id),
        }
    }

    /// Where it ends, mm.
    pub fn to_mm(&self) -> f64 {
        self.from_mm + self.length_mm
    }

    /// What it is called, with its sizes.
    pub fn label(&self, unit: LengthUnit) -> String {
        let text = |mm| unit.shown(mm);
        match (self.target, self.arc) {
            (Target::Bend(bend), Some((angle_rad, clr_mm))) => {
                let degrees = format_number(angle_rad.to_degrees(), 1);
                format!("Bend {}, {degrees}° at CLR {}", bend + 1, text(clr_mm))
            }
            (Target::Straight(index), _) => format!("Straight {}, {}", index + 1, text(self.length_mm)),
            _ => String::new(),
        }
    }

    /// Where it lies, in words. Whichever end is bent first, places count from the start of the drawing.
    pub fn place(&self, unit: LengthUnit) -> String {
        format!("From {} to {} behind the start", unit.shown(self.from_mm), unit.shown(self.to_mm()))
    }
}

/// A clamp on the stretch that it grips.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footprint {
    /// The id of the bend it is for.
    pub id: NodeId,
    /// That bend, counted from 0.
    pub bend: usize,
    /// Its stretch, mm; starts before 0 where it reaches beyond the tip.
    pub from_mm: f64,
    /// End of the stretch, where the bend starts.
    pub to_mm: f64,
    /// The bend that is made before it, counted from 0, onto whose arc it may reach; `None` where it is the first.
    pub before: Option<usize>,
    /// How far it reaches over that arc, mm.
    pub overlap_mm: f64,
    /// The bite there, mm.
    pub bite_mm: f64,
    /// What the checks make of the overlap.
    pub severity: Option<Severity>,
    /// Whether its bend is selected.
    pub selected: bool,
}

impl Footprint {
    /// How long it is and on what it lies, in words.
    pub fn told(&self, unit: LengthUnit) -> String {
        let length = unit.shown(self.to_mm - self.from_mm);
        match self.before.filter(|_| self.overlap_mm > 0.0) {
            Some(before) => format!(
                "{length}\nReaches {} over bend {}, which is bent already; bite {}",
                unit.shown(self.overlap_mm),
                before + 1,
                unit.shown(self.bite_mm)
            ),
            None => format!("{length}\nLies on a straight, all of it"),
        }
    }
}

/// A finding on its stretch.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The finding's number in the solved order.
    pub finding: usize,
    /// The check.
    pub fault: Fault,
    /// How grave it is.
    pub severity: Severity,
    /// The stretch, mm.
    pub from_mm: f64,
    /// Its end, mm.
    pub to_mm: f64,
    /// What it says.
    pub text: String,
}

/// All that the strip shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The unit of the ruler.
    pub unit: LengthUnit,
    /// The end of the drawing that is bent first.
    pub from: End,
    /// The blank to cut, springback counted; `None` where a bend has no die set.
    pub cut: Option<Cut>,
    /// Extra blank before the tip, mm.
    pub lead_trim_mm: f64,
    /// Extra blank behind the tail, mm.
    pub tail_trim_mm: f64,
    /// Whether lead trim, tail trim and with them the blank must look unsure.
    pub trims_unsure: [bool; 2],
    /// Where the tail ends, mm.
    pub tail_at_mm: f64,
    /// Straights and arcs in turn.
    pub pieces: Vec<Piece>,
    /// The clamps.
    pub footprints: Vec<Footprint>,
    /// The findings that have a place, worst first.
    pub marks: Vec<Mark>,
    /// The seam of a welded tube.
    pub seam: Option<SeamLine>,
    /// Whether a change is being tried that is not made yet.
    pub previewing: bool,
}

impl Model {
    /// The strip of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        Self::told(workbench, &mut told::State::default())
    }

    /// The same, with the findings in words that are kept.
    pub(crate) fn told(workbench: &Workbench, told: &mut told::State) -> Self {
        let solved = workbench.solved();
        let selection = workbench.selection();
        let selected: HashSet<Target> = selection.targets().iter().copied().map(place_of).collect();
        let hover = workbench.hover().map(place_of);
        let chosen = |target| selected.contains(&target);
        let hovered = |target| hover == Some(target);
        let piece = |target, id, from_mm, length_mm, arc| Piece {
            target,
            id,
            from_mm,
            length_mm,
            arc,
            selected: chosen(target),
            hovered: hovered(target),
        };
        let mut pieces = Vec::with_capacity(2 * solved.bends.len() + 1);
        let mut at_mm = 0.0;
        for (index, straight_mm) in solved.straights_mm.iter().enumerate() {
            pieces.push(piece(Target::Straight(index), solved.nodes.straight(index), at_mm, *straight_mm, None));
            at_mm += straight_mm;
            if let Some(bend) = solved.bends.get(index) {
                let arc = Some((bend.angle_rad, bend.clr_mm));
                pieces.push(piece(Target::Bend(index), solved.nodes.bend(index), at_mm, bend.arc_mm, arc));
                at_mm += bend.arc_mm;
            }
        }
        Self {
            unit: workbench.part().units,
            from: solved.from,
            cut: solved.cut(),
            lead_trim_mm: solved.lead_trim_mm,
            tail_trim_mm: solved.tail_trim_mm,
            trims_unsure: solved.trim_bases.map(|basis| basis.is_some_and(Ground::unsure)),
            tail_at_mm: at_mm,
            pieces,
            footprints: footprints(solved, |bend| chosen(Target::Bend(bend))),
            marks: marks(solved, |most| told.first(workbench, most)),
            seam: SeamLine::of(solved),
            previewing: workbench.previewing(),
        }
    }

    /// From the first to the last place of the blank, mm, impossible overlaps included.
    pub fn extent_mm(&self) -> (f64, f64) {
        let ends = self.pieces.iter().flat_map(|piece| [piece.from_mm, piece.to_mm()]);
        let (low, high) = ends.fold((0.0_f64, 0.0_f64), |(low, high), end| (low.min(end), high.max(end)));
        (low - self.lead_trim_mm, high + self.tail_trim_mm)
    }

    /// The arc of a bend.
    pub fn arc(&self, bend: usize) -> Option<&Piece> {
        self.pieces.get(2 * bend + 1)
    }

    /// A straight.
    pub fn straight(&self, index: usize) -> Option<&Piece> {
        self.pieces.get(2 * index)
    }
}

/// The piece of tube that a target means: the handle of a bend stands for its arc.
fn place_of(target: Target) -> Target {
    match target {
        Target::Handle(handle) => handle.bend().map_or(target, Target::Bend),
        target => target,
    }
}

fn footprints(solved: &Solved, selected: impl Fn(usize) -> bool) -> Vec<Footprint> {
    let mut severities = vec![None; solved.bends.len()];
    for finding in solved.findings.iter().filter(|finding| finding.is_of_clamp()) {
        if let Some(severity) = finding.place.bend.and_then(|bend| severities.get_mut(bend)) {
            *severity = Some(finding.severity).max(*severity);
        }
    }
    let bends = solved.bends.iter().zip(severities).enumerate();
    bends
        .filter_map(|(index, (bend, severity))| {
            let clamp = bend.clamp?;
            Some(Footprint {
                id: solved.nodes.bend(index),
                bend: index,
                before: solved.bend_before(index),
                from_mm: clamp.from_mm,
                to_mm: clamp.to_mm,
                overlap_mm: clamp.overlap_mm,
                bite_mm: clamp.bite_mm,
                severity,
                selected: selected(index),
            })
        })
        .collect()
}

/// The most findings that are marked, the worst of them; more would only lie over one another.
const MOST_MARKS: usize = 500;

fn marks<'a>(solved: &Solved, told: impl FnOnce(usize) -> &'a [Told]) -> Vec<Mark> {
    let findings = solved.findings.iter().enumerate();
    let places = findings.flat_map(|(index, finding)| finding.places().map(move |place| (index, *place)));
    let seen = |(_, place): &(usize, Place)| place.to_mm > place.from_mm;
    let marked: Vec<(usize, Place)> = places.filter(seen).take(MOST_MARKS).collect();
    let told = told(marked.last().map_or(0, |(index, _)| index + 1));
    let mark = |(index, place): (usize, Place)| {
        let finding = told.get(index)?;
        Some(Mark {
            finding: index,
            fault: finding.fault,
            severity: finding.severity,
            from_mm: place.from_mm,
            to_mm: place.to_mm,
            text: finding.text.clone(),
        })
    };
    marked.into_iter().filter_map(mark).collect()
}
