//! Lays a part out on the tooling of a shop.

use elbowroom_geometry::{Angle, BendForm, BendRow, Centreline, Length};

use super::bend::SolvedBend;
use super::clamp::Seat;
use super::laid_out::LaidOut;
use super::order::InOrder;
use super::{form, program, tooling, trims};
use crate::model::nearly::is_bend;
use crate::{Numbering, Part, Shop};

/// Lays a part out.
pub(crate) fn lay_out(part: &Part, shop: &Shop) -> LaidOut {
    let form = part.path.bend_form();
    let from = part.tooling.from;
    let order = InOrder { rows: form.path.rows(), tail: form.path.tail(), from };
    let centreline = Centreline::of(&form.path);
    let developed_length_mm = centreline.length_mm();
    let mut bends = lay_bends(&form, &centreline, part, shop);
    lay_straights_ahead(&order, &mut bends);
    let seam = form::seam(part, &order);
    let known = form::form(part, shop, &mut bends, seam.as_ref());
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
    let program = program::program_of(&form.path, from, &bends, (shop, &known), [lead_trim_mm, tail_trim_mm]);
    let as_drawn_mm = developed_length_mm + lead_trim_mm + tail_trim_mm;
    let blank_length_mm = program.as_ref().map_or(as_drawn_mm, |program| program.blank.mm());
    LaidOut {
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
        known,
        program,
        seam,
        mass: form::mass(part, shop, developed_length_mm, blank_length_mm),
    }
}

/// The bends with their dies, still without clamps and the straights ahead of them.
fn lay_bends(form: &BendForm, centreline: &Centreline, part: &Part, shop: &Shop) -> Vec<SolvedBend> {
    let mut last_die: Option<(Length, Option<usize>)> = None;
    let lay = |(index, row): (usize, &BendRow)| {
        let arc = &centreline.elements()[2 * index + 1];
        let angle_rad = row.angle.radians();
        let die = if !is_bend(row) {
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
