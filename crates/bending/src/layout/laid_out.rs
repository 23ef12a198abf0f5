//! A part laid out: straights, bends, clamps and blank.

use elbowroom_geometry::{BendForm, Centreline, Frame};

use super::bend::SolvedBend;
use super::clamp::Seat;
use super::form::Known;
use super::formed::{Cut, Mass};
use super::order::InOrder;
use super::program::{NoProgram, Program};
use crate::forming::springback::SpringbackBasis;
use crate::model::ground::Ground;
use crate::seam::SeamLay;
use crate::{End, Hand, Numbering};

/// A part laid out against a shop: all but what the checks find. Bends, straights and places are those of the drawing, from its start on,
/// whichever end is bent first.
#[derive(Clone, Debug, PartialEq)]
pub struct LaidOut {
    /// The end of the drawing that is bent first.
    pub from: End,
    /// The side to which the machine bends.
    pub hand: Hand,
    /// The bend form that was solved, with the drawing's problems.
    pub form: BendForm,
    /// The ids of its bends, straights and vertices, by which edits and the selection know them.
    pub nodes: Numbering,
    /// The centreline in space.
    pub centreline: Centreline,
    /// Straights, one more than bends, mm; negative where arcs overlap.
    pub straights_mm: Vec<f64>,
    /// The bends in order.
    pub bends: Vec<SolvedBend>,
    /// The largest bend angle, radians; 0 where nothing is bent.
    pub largest_angle_rad: f64,
    /// All straights and arcs, mm.
    pub developed_length_mm: f64,
    /// Extra blank at the start of the drawing, cut off after bending, springback counted, mm.
    pub lead_trim_mm: f64,
    /// Extra blank at the finish of the drawing, cut off after bending, springback counted, mm.
    pub tail_trim_mm: f64,
    /// What the trims at the start and at the finish of the drawing rest on; `None` where they follow from the drawing, the clamp and what
    /// was put on by hand.
    pub trim_bases: [Option<Ground>; 2],
    /// The blank to cut, springback and stretch counted as in the program, mm; as drawn, developed length and both trims,
    /// where a bend has no die set.
    pub blank_length_mm: f64,
    /// What is known of springback on the die sets that bend it, by their places in the shop, which is asked for each once.
    pub(crate) known: Known,
    /// The program, from the end that is bent first; why there is none, where there is none.
    pub program: Result<Program, NoProgram>,
    /// The seam, with a clock position at every bend; `None` for seamless tube and where nothing is bent.
    pub seam: Option<SeamLay>,
    /// Mass; `None` where the shop does not know the material's density.
    pub mass: Option<Mass>,
}

impl LaidOut {
    /// The blank to cut, with springback and stretch counted: that of the program. `None` where there is none.
    pub fn cut(&self) -> Option<Cut> {
        let program = self.program.as_ref().ok()?;
        Some(Cut {
            blank_mm: program.blank.mm(),
            lead_trim_mm: self.lead_trim_mm,
            tail_trim_mm: self.tail_trim_mm,
            basis: program.steps.iter().fold(SpringbackBasis::Shop, |basis, step| basis.weaker(step.forming.basis)),
        })
    }

    /// What the length of the blank rests on: springback by theory where there is any, else the first trim that is unsure,
    /// else what any of them rests on.
    pub fn blank_basis(&self) -> Option<Ground> {
        let springback = self.cut().map(|cut| Ground::from(cut.basis));
        let unsure = self.trim_bases.iter().flatten().find(|ground| ground.unsure());
        let trims = || unsure.or(self.trim_bases.iter().flatten().next()).copied();
        springback.filter(|ground| ground.unsure()).or_else(trims).or(springback)
    }

    /// The bends that turn the tube, as drawn, in the order in which they are made.
    pub fn in_order(&self) -> impl DoubleEndedIterator<Item = usize> {
        self.from.in_order(self.bends.len()).filter(|&index| self.bends[index].is_bent())
    }

    /// The rows as they come to the machine.
    pub(crate) fn rows_in_order(&self) -> InOrder<'_> {
        InOrder { rows: self.form.path.rows(), tail: self.form.path.tail(), from: self.from }
    }

    /// The stretch of tube between bend `index` and the one made before it, or the end that is bent first, mm along the
    /// tube from the start of the drawing; the stretch on which they overlap where there is no straight between them.
    pub fn ahead_mm(&self, index: usize) -> (f64, f64) {
        let bend = &self.bends[index];
        let at_mm = bend.made_from_mm(self.from);
        let far_mm = at_mm + self.from.ahead() * bend.straight_ahead_mm;
        (at_mm.min(far_mm), at_mm.max(far_mm))
    }

    /// Bend `index` as a seat for a clamp.
    pub(crate) fn seat(&self, index: usize) -> Seat<'_> {
        let bend = &self.bends[index];
        let [lead_trim_mm, _] = self.trims_in_order_mm();
        let at_mm = bend.made_from_mm(self.from);
        let [to_start_mm, to_finish_mm] = [at_mm, self.developed_length_mm - at_mm];
        let [ahead_mm, _] = self.from.first_before([to_start_mm, to_finish_mm]);
        Seat {
            order: self.rows_in_order(),
            bend: index,
            leads: self.bend_before(index).is_none(),
            straight_mm: bend.straight_ahead_mm,
            at_mm,
            tube_ahead_mm: ahead_mm + lead_trim_mm,
            lead_trim_mm,
        }
    }

    /// The bend that is made before bend `index`, if any is.
    pub fn bend_before(&self, index: usize) -> Option<usize> {
        match self.from {
            End::Start => self.bends.get(..index)?.iter().rposition(SolvedBend::is_bent),
            End::Finish => {
                let later = self.bends.get(index + 1..)?.iter().position(SolvedBend::is_bent);
                later.map(|further| index + 1 + further)
            }
        }
    }

    /// The straight on which the clamp of bend `index` lies.
    pub fn clamped_straight(&self, index: usize) -> usize {
        match self.from {
            End::Start => index,
            End::Finish => index + 1,
        }
    }

    /// The bend whose clamp lies on straight `index`, if there is such a bend.
    pub fn bend_clamped_on(&self, straight: usize) -> Option<usize> {
        let bend = match self.from {
            End::Start => straight,
            End::Finish => straight.checked_sub(1)?,
        };
        (bend < self.bends.len()).then_some(bend)
    }

    /// Where bend `index` begins as it is made: the tangent point up to which its clamp lies, looking along the tube in
    /// the direction of bending, towards the inside of the bend.
    pub fn made_from(&self, index: usize) -> Option<Frame> {
        let arc = self.centreline.arc(index)?;
        Some(match self.from {
            End::Start => arc.start,
            End::Finish => {
                let end = arc.end();
                Frame { tangent: -end.tangent, ..end }
            }
        })
    }

    /// Extra blank at the end that is bent first and at the other one, mm.
    pub fn trims_in_order_mm(&self) -> [f64; 2] {
        self.from.first_before([self.lead_trim_mm, self.tail_trim_mm])
    }

    /// What these two rest on.
    pub fn trim_bases_in_order(&self) -> [Option<Ground>; 2] {
        self.from.first_before(self.trim_bases)
    }
}
