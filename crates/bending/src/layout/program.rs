//! The bend program: what the person at the machine sets, bend by bend.
//!
//! The program is solved for the *free* radius: a released bend has grown to R_die θ_set/θ_free (S01), so
//! it cannot lie as drawn, and the straights between give way. The finished vertices land where they were drawn. Towards
//! half a turn the vertex lies far off or nowhere: there the crown of the arc lands where it was drawn, and the legs
//! move apart as the radius grows. [`Growth`](crate::forming::growth::Growth) tells one from the other.

use elbowroom_geometry::units::{LengthUnit, format_angle};
use elbowroom_geometry::{Angle, BendPath, BendRow, Length, Refusal};

use super::bend::SolvedBend;
use super::form::Known;
use super::let_go::{let_go, take_up};
use crate::forming::springback::{SpringbackBasis, SpringbackLine};
use crate::{End, Machine, Shop};

/// The words that go with every rotation.
pub const ROTATION_SENSE: &str = "clockwise seen from the chuck looking to the die";

/// How one bend is formed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forming {
    /// Centreline radius of the die.
    pub die_clr: Length,
    /// Springback on this die in this material.
    pub line: SpringbackLine,
    /// Where the line comes from.
    pub basis: SpringbackBasis,
    /// Share by which the bend takes less blank than R_die θ_set; 0 where nothing was measured, which
    /// leaves the blank long enough.
    pub stretch: f64,
    /// Length of the clamp.
    pub clamp: Length,
}

/// One step of the program, in the order of bending.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Carriage feed before the bend.
    pub feed: Length,
    /// Rotation before the bend, positive in the sense of [`ROTATION_SENSE`].
    pub rotation: Angle,
    /// Angle to set.
    pub set_angle: Angle,
    /// Angle that is left when the tube is released.
    pub free_angle: Angle,
    /// Radius that is left when the tube is released.
    pub free_clr: Length,
    /// Blank that the bend takes up.
    pub take_up: Length,
    /// Where the bend starts, measured along the blank from its lead end.
    pub mark: Length,
    /// How it is formed.
    pub forming: Forming,
}

/// The program for one blank.
#[derive(Clone, Debug, PartialEq)]
pub struct Program {
    /// The steps, first bend first.
    pub steps: Vec<Step>,
    /// Straight left behind the last bend, without the trim.
    pub tail: Length,
    /// Extra blank before the lead end.
    pub lead_trim: Length,
    /// Extra blank behind the tail.
    pub tail_trim: Length,
    /// Blank to cut.
    pub blank: Length,
    /// The part as it comes off the machine: free radii, the drawn vertices, the drawn crowns of its Us.
    pub as_bent: BendPath,
    /// What measured pieces have to say; `None` where none asks for a correction.
    pub correction: Option<Correction>,
}

/// What measured pieces ask of a program.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Correction {
    /// The pieces that it rests on, counted from 0; never none.
    pub rests_on: Vec<usize>,
    /// Those of them that were doubted and are taken as measured, since the person has measured again.
    pub as_measured: Vec<usize>,
    /// For each step whether theory carries its set angle far from one that was measured.
    pub unsure: Vec<bool>,
    /// Whether it is put aside: the figures are as planned.
    pub put_aside: bool,
}

impl Correction {
    /// The piece after which it was made, counted from 1.
    pub fn after(&self) -> usize {
        self.rests_on.last().map_or(0, |piece| piece + 1)
    }

    /// What is said of pieces that were doubted and are taken all the same, as a sentence after another; empty where there
    /// are none.
    pub fn stood_by(&self) -> String {
        let numbers: Vec<String> = self.as_measured.iter().map(|piece| (piece + 1).to_string()).collect();
        match numbers.as_slice() {
            [] => String::new(),
            [one] => format!(" Piece {one} was doubted, measured again, and is taken as it is."),
            several => {
                format!(" Pieces {} were doubted, measured again, and are taken as they are.", several.join(", "))
            }
        }
    }
}

impl Program {
    /// The correction that is in its figures.
    pub fn corrected_by(&self) -> Option<&Correction> {
        self.correction.as_ref().filter(|correction| !correction.put_aside)
    }

    /// The piece after which it was corrected, counted from 1; 0 where it is as planned.
    pub fn corrected_after(&self) -> usize {
        self.corrected_by().map_or(0, Correction::after)
    }

    /// What it asks of a machine beyond what it has, in whole sentences.
    pub fn beyond_machine(&self, machine: &Machine, unit: LengthUnit) -> Vec<String> {
        let mut stops = Vec::new();
        for (index, step) in self.steps.iter().enumerate() {
            let number = index + 1;
            if step.set_angle > machine.largest_angle {
                let (set, most) = (format_angle(step.set_angle, 1), format_angle(machine.largest_angle, 1));
                stops.push(format!("Step {number} is to be set to {set}, and the machine bends up to {most}."));
            }
            if step.set_angle <= Angle::ZERO {
                stops.push(format!(
                    "Step {number} is to be set to {}: nothing is left to bend.",
                    format_angle(step.set_angle, 1)
                ));
            }
        }
        if self.blank > machine.longest_blank {
            let (blank, longest) = (unit.shown(self.blank.mm()), unit.shown(machine.longest_blank.mm()));
            stops.push(format!("The blank of {blank} is longer than the {longest} that the machine takes."));
        }
        stops
    }
}

/// Why there is no program.
#[derive(Clone, Debug, PartialEq)]
pub enum NoProgram {
    /// A bend has no die set or no clamp. Counted from 0 as drawn.
    NoDie(usize),
    /// A number was turned away.
    Number(Refusal),
}

/// The part as it comes off the machine: every bend on its free radius, straights shortened so that the
/// vertices stay, and the crowns of bends near half a turn. Straights may turn negative; that is for a check to say.
///
/// # Errors
/// Refuses what the bend form refuses, such as a radius beyond all bounds.
pub fn as_bent(drawn: &BendPath, forming: &[Forming]) -> Result<BendPath, Refusal> {
    let grown: Vec<(Length, Length)> = drawn
        .rows()
        .iter()
        .zip(forming)
        .map(|(row, forming)| {
            let growth = let_go(&forming.line, forming.die_clr, row.clr, row.angle);
            (growth.free, growth.straight_taken())
        })
        .collect();
    let given_before = |index: usize| index.checked_sub(1).map_or(Length::ZERO, |before| grown[before].1);
    let rows = drawn
        .rows()
        .iter()
        .zip(&grown)
        .enumerate()
        .map(|(index, (row, (free, beyond)))| BendRow {
            straight: row.straight - given_before(index) - *beyond,
            clr: *free,
            ..*row
        })
        .collect();
    let tail = drawn.tail() - given_before(grown.len());
    BendPath::new(*drawn.start(), rows, tail)
}

/// Makes the program of a path that is bent from its start. Positive rotations of the bend form are
/// positive rotations of the tube in the chuck, whichever the hand of the machine and whichever end leads:
/// the dihedral angle keeps its sign when the path is reversed (G05), and a machine of the other hand
/// bends every plane to its other side alike.
///
/// # Errors
/// Refuses what the bend form refuses.
pub fn program(
    drawn: &BendPath,
    forming: &[Forming],
    lead_trim: Length,
    tail_trim: Length,
) -> Result<Program, Refusal> {
    let as_bent = as_bent(drawn, forming)?;
    let mut steps = Vec::with_capacity(forming.len());
    let mut mark = Length::ZERO;
    for (index, (row, forming)) in as_bent.rows().iter().zip(forming).enumerate() {
        let set_angle = forming.line.set(row.angle);
        let feed = if index == 0 { lead_trim + row.straight } else { row.straight };
        let take_up = take_up(forming.die_clr, set_angle, forming.stretch);
        mark += feed;
        steps.push(Step {
            feed,
            rotation: row.rotation,
            set_angle,
            free_angle: row.angle,
            free_clr: row.clr,
            take_up,
            mark,
            forming: *forming,
        });
        mark += take_up;
    }
    // Without a bend the lead trim has not been fed yet.
    let fed = if steps.is_empty() { lead_trim } else { mark };
    let tail = as_bent.tail();
    Ok(Program { steps, tail, lead_trim, tail_trim, blank: fed + tail + tail_trim, as_bent, correction: None })
}

/// The path without rows that turn nothing: their straights and rotations pass on to the next row.
fn bends_only(path: &BendPath, bends: &[SolvedBend]) -> Result<BendPath, Refusal> {
    let mut rows: Vec<BendRow> = Vec::with_capacity(bends.len());
    let (mut straight, mut rotation) = (Length::ZERO, Angle::ZERO);
    for (row, bend) in path.rows().iter().zip(bends) {
        straight += row.straight;
        rotation += row.rotation;
        if bend.is_bent() {
            rows.push(BendRow { straight, rotation, ..*row });
            (straight, rotation) = (Length::ZERO, Angle::ZERO);
        }
    }
    BendPath::new(*path.start(), rows, path.tail() + straight)
}

/// The program of a path whose bends are laid out, from an end. The trims are those at the start and at the finish of the
/// drawing, mm.
pub(super) fn program_of(
    drawn: &BendPath,
    from: End,
    bends: &[SolvedBend],
    (shop, known): (&Shop, &Known),
    trims_mm: [f64; 2],
) -> Result<Program, NoProgram> {
    let mut forming = Vec::with_capacity(bends.len());
    for index in from.in_order(bends.len()).filter(|&index| bends[index].is_bent()) {
        forming.push(forming_of(&bends[index], shop, known).ok_or(NoProgram::NoDie(index))?);
    }
    let path = bends_only(drawn, bends).map_err(NoProgram::Number)?;
    let path = if from == End::Finish { path.reversed() } else { path };
    let [lead_trim, tail_trim] = from.first_before(trims_mm).map(Length::from_mm);
    program(&path, &forming, lead_trim, tail_trim).map_err(NoProgram::Number)
}

/// How a bend is formed; `None` without a die set or a clamp.
fn forming_of(bend: &SolvedBend, shop: &Shop, known: &Known) -> Option<Forming> {
    let (index, clamp) = (bend.die?, bend.clamp?);
    let die_clr = shop.die_sets.get(index)?.clr;
    let (_, springback) = known.iter().find(|(die, _)| *die == index)?;
    Some(Forming {
        die_clr,
        line: springback.line,
        basis: springback.basis,
        stretch: springback.stretch,
        clamp: Length::from_mm(clamp.length_mm),
    })
}
