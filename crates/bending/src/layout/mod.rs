//! From part and shop to straights, bends, clamps, blank and program.

pub(crate) mod ahead;
mod arc_offset;
pub(crate) mod clamp;
pub(crate) mod formed;
pub mod forward;
pub(crate) mod grip;
pub(crate) mod order;
pub mod plan;
pub mod program;
pub(crate) mod released;
pub(crate) mod tooling;
pub(crate) mod trims;

use elbowroom_geometry::{Angle, BendForm, BendRow, Centreline, Frame, Length};

use crate::forming::ground::Ground;
use crate::seam::SeamLay;
use crate::{Basis, End, Finding, Hand, Numbering, Part, Severity, Shop};
use clamp::Seat;
pub use formed::{Cut, Formed, Mass, Released};
use order::InOrder;

/// The clamp of one bend as it lies on the tube ahead of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClampOnTube {
    /// Length of the clamp, mm.
    pub length_mm: f64,
    /// How far it reaches over the previous arc and whatever lies beyond, mm along the centreline; 0
    /// where the straight is long enough.
    pub overlap_mm: f64,
    /// The largest offset of the centreline from the clamp's axis under the clamp, mm.
    pub bite_mm: f64,
    /// Direction of that offset about the clamp's axis, from the inside of the bend being made (towards
    /// the die), right-handed about the direction of travel, radians. 0 is into the die, ±π into the
    /// clamp, ±π/2 along the parting plane. 0 where there is no bite.
    pub bite_direction_rad: f64,
    /// Length along the tube at which the bite is largest, mm.
    pub bite_at_mm: f64,
    /// The smallest straight for which the bite stays within what the clamp closes on, mm.
    pub needs_straight_mm: f64,
    /// The smallest straight for which the clamp leaves no mark, mm.
    pub mark_free_straight_mm: f64,
    /// What these two rest on: the bites that the die set allows.
    pub straight_basis: Basis,
    /// The length that is truly gripped, mm.
    pub gripped_mm: f64,
    /// The stretch it covers, mm along the tube; starts before 0 where it reaches beyond the tip.
    pub from_mm: f64,
    /// The stretch's end, where the bend starts.
    pub to_mm: f64,
}

/// One bend, solved.
#[derive(Clone, Debug, PartialEq)]
pub struct SolvedBend {
    /// The vertex it sits at, where the path is held in vertex form.
    pub vertex: Option<usize>,
    /// Rotation before it, radians.
    pub rotation_rad: f64,
    /// Bend angle, radians.
    pub angle_rad: f64,
    /// Centreline radius, mm.
    pub clr_mm: f64,
    /// Tangent length R tan(θ/2), mm (G06). `None` from half a turn on, where the straights do not meet.
    pub tangent_mm: Option<f64>,
    /// Length of the arc, mm.
    pub arc_mm: f64,
    /// Length along the tube at which it starts, mm from the tip as drawn.
    pub starts_at_mm: f64,
    /// The straight on which its clamp lies, mm: from the arc that is made before it, or from the tip. Rows of
    /// no angle count as straight.
    pub straight_ahead_mm: f64,
    /// The die set that bends it, as an index into the shop's; `None` where the shop has none and where
    /// the row turns nothing.
    pub die: Option<usize>,
    /// Its clamp; `None` where there is no die set.
    pub clamp: Option<ClampOnTube>,
    /// What bending does to the tube here; `None` where the row turns nothing and where the inside of the
    /// bend would fold.
    pub formed: Option<Formed>,
}

impl SolvedBend {
    /// Length along the tube at which it ends, mm.
    pub fn ends_at_mm(&self) -> f64 {
        self.starts_at_mm + self.arc_mm
    }

    /// Length along the tube up to which its clamp lies, where the tube is bent from an end, mm.
    pub(crate) fn made_from_mm(&self, from: End) -> f64 {
        match from {
            End::Start => self.starts_at_mm,
            End::Finish => self.ends_at_mm(),
        }
    }

    /// Whether it turns the tube at all: a row of 0° is part of the straight.
    pub fn is_bent(&self) -> bool {
        self.angle_rad >= ahead::NO_BEND_RAD
    }
}

/// A part solved against a shop. Bends, straights and places are those of the drawing, from its start on,
/// whichever end is bent first.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
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
    /// Developed length and both trims, mm.
    pub blank_length_mm: f64,
    /// The blank to cut, with springback counted; `None` where a bend has no die set.
    pub cut: Option<Cut>,
    /// The seam, with a clock position at every bend; `None` for seamless tube and where nothing is bent.
    pub seam: Option<SeamLay>,
    /// Mass; `None` where the shop does not know the material's density.
    pub mass: Option<Mass>,
    /// Everything the checks found, in their total order.
    pub findings: Vec<Finding>,
}

impl Solved {
    /// What the length of the blank as drawn rests on: the first trim that is unsure, else what any of them rests on.
    pub fn blank_basis(&self) -> Option<Ground> {
        let unsure = self.trim_bases.iter().flatten().find(|ground| ground.unsure());
        unsure.or(self.trim_bases.iter().flatten().next()).copied()
    }

    /// What the blank to cut rests on: springback by theory where there is any, else what the blank as drawn does.
    pub fn cut_basis(&self) -> Option<Ground> {
        let springback = self.cut.map(|cut| Ground::from(cut.basis));
        springback.filter(|ground| ground.unsure()).or_else(|| self.blank_basis()).or(springback)
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

    /// The worst severity found.
    pub fn worst(&self) -> Option<Severity> {
        self.findings.first().map(|finding| finding.severity)
    }
}

/// Everything but findings and verdict.
pub(crate) fn lay_out(part: &Part, shop: &Shop) -> Solved {
    let form = part.path.bend_form();
    let from = part.tooling.from;
    let order = InOrder { rows: form.path.rows(), tail: form.path.tail(), from };
    let centreline = Centreline::of(&form.path);
    let developed_length_mm = centreline.length_mm();
    let mut bends = lay_bends(&form, &centreline, part, shop);
    lay_straights_ahead(&order, &mut bends);
    let seam = formed::seam(part, &order);
    formed::form(part, shop, &mut bends, seam.as_ref());
    let ends = trims::Ends { part, shop, bends: &bends, developed_length_mm };
    let ([lead_trim_mm, tail_trim_mm], trim_bases) = ends.trims();
    let [ahead_trim_mm, _] = from.first_before([lead_trim_mm, tail_trim_mm]);
    let mut ahead_is_bent = false;
    for index in from.in_order(bends.len()) {
        let bend = &mut bends[index];
        if !bend.is_bent() {
            continue;
        }
        let at_mm = bend.made_from_mm(from);
        let seat = Seat {
            order,
            bend: index,
            leads: !ahead_is_bent,
            straight_mm: bend.straight_ahead_mm,
            at_mm,
            tube_ahead_mm: from.first_before([at_mm, developed_length_mm - at_mm])[0] + ahead_trim_mm,
            lead_trim_mm: ahead_trim_mm,
        };
        let die = bend.die.and_then(|die| shop.die_sets.get(die));
        bend.clamp = die.and_then(|die| tooling::clamp_length(part, die).map(|length| seat.lay(length, die)));
        ahead_is_bent = true;
    }
    let blank_length_mm = developed_length_mm + lead_trim_mm + tail_trim_mm;
    let cut = formed::cut(from, &bends, developed_length_mm, [lead_trim_mm, tail_trim_mm]);
    let to_cut_mm = cut.map_or(blank_length_mm, |cut| cut.blank_mm);
    Solved {
        from,
        hand: part.tooling.hand_in(shop),
        straights_mm: centreline.elements().iter().step_by(2).map(|straight| straight.length_mm).collect(),
        nodes: Numbering::new(part, &form),
        form,
        centreline,
        largest_angle_rad: bends.iter().map(|bend| bend.angle_rad).fold(0.0, f64::max),
        bends,
        developed_length_mm,
        lead_trim_mm,
        tail_trim_mm,
        trim_bases,
        blank_length_mm,
        cut,
        seam,
        mass: formed::mass(part, shop, developed_length_mm, to_cut_mm),
        findings: Vec::new(),
    }
}

/// The bends with their dies, still without clamps and the straights ahead of them.
fn lay_bends(form: &BendForm, centreline: &Centreline, part: &Part, shop: &Shop) -> Vec<SolvedBend> {
    let mut last_die: Option<(Length, Option<usize>)> = None;
    let lay = |(index, row): (usize, &BendRow)| {
        let arc = &centreline.elements()[2 * index + 1];
        let angle_rad = row.angle.radians();
        let die = if !ahead::is_bend(row) {
            None
        } else if let Some((_, die)) = last_die.filter(|(clr, _)| *clr == row.clr) {
            die
        } else {
            let die = tooling::die_index(part, shop, row.clr);
            last_die = Some((row.clr, die));
            die
        };
        SolvedBend {
            vertex: form.vertex_of_bend.get(index).copied(),
            rotation_rad: row.rotation.radians(),
            angle_rad,
            clr_mm: row.clr.mm(),
            tangent_mm: (row.angle < Angle::HALF_TURN).then(|| row.clr.mm() * (angle_rad / 2.0).tan()),
            arc_mm: arc.length_mm,
            starts_at_mm: arc.from_mm,
            straight_ahead_mm: 0.0,
            die,
            clamp: None,
            formed: None,
        }
    };
    form.path.rows().iter().enumerate().map(lay).collect()
}

/// The straights on which the clamps lie: rows of no angle count as straight.
fn lay_straights_ahead(order: &InOrder, bends: &mut [SolvedBend]) {
    let mut carried_mm = 0.0;
    for index in order.from.in_order(bends.len()) {
        let bend = &mut bends[index];
        bend.straight_ahead_mm = order.straight_ahead_mm(index) + carried_mm;
        carried_mm = if bend.is_bent() { 0.0 } else { bend.straight_ahead_mm + bend.arc_mm };
    }
}
