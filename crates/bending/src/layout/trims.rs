//! Extra blank at the ends, cut off after bending.

use super::tooling::{clamp_length, die_index};
use crate::forming::ground::Ground;
use crate::{Part, Shop, SolvedBend};
use elbowroom_geometry::Length;

/// What an end asks for, mm; negative where it has more than it needs.
#[derive(Clone, Copy, Debug)]
pub(crate) struct EndNeeds {
    /// What clamp or chuck asks for.
    pub hold_mm: f64,
    /// What a square end face asks for.
    pub square_mm: f64,
}

/// What the lead end and the tail ask for; `None` where nothing is bent.
pub(crate) fn needs(part: &Part, shop: &Shop, bends: &[SolvedBend], developed_length_mm: f64) -> Option<[EndNeeds; 2]> {
    let first = bends.iter().find(|bend| bend.is_bent())?;
    let last = bends.iter().rfind(|bend| bend.is_bent())?;
    let (lead_mm, tail_mm) = (first.starts_at_mm, developed_length_mm - last.ends_at_mm());
    let square_mm = shop.machine.square_end_diameters * part.tube.od.mm();
    let die = die_index(part, shop, Length::from_mm(first.clr_mm)).and_then(|die| shop.die_sets.get(die));
    let clamp_mm = die.and_then(|die| clamp_length(part, die)).map_or(0.0, Length::mm);
    Some([
        EndNeeds { hold_mm: clamp_mm - lead_mm, square_mm: square_mm - lead_mm },
        EndNeeds { hold_mm: shop.machine.tail_hold.mm() - tail_mm, square_mm: square_mm - tail_mm },
    ])
}

/// What the trims rest on, the lead end's first: a figure of the machine where that is what asks for most, else
/// `None`: a clamp that is there, or stock that was put on by hand.
pub(crate) fn bases(part: &Part, shop: &Shop, bends: &[SolvedBend], developed_length_mm: f64) -> [Option<Ground>; 2] {
    let Some([lead, tail]) = needs(part, shop, bends, developed_length_mm) else {
        return [None, None];
    };
    let of_machine = |asked_mm: f64, rest_mm: f64| (asked_mm > rest_mm.max(0.0)).then(|| shop.machine.basis.into());
    [
        of_machine(lead.square_mm, part.stock.lead.mm().max(lead.hold_mm)),
        of_machine(tail.square_mm.max(tail.hold_mm), part.stock.tail.mm()),
    ]
}

/// Lead and tail trim, mm: what is asked for, or what was put on by hand where that is more.
pub(crate) fn of(part: &Part, shop: &Shop, bends: &[SolvedBend], developed_length_mm: f64) -> (f64, f64) {
    let Some([lead, tail]) = needs(part, shop, bends, developed_length_mm) else {
        return (0.0, 0.0);
    };
    let trim = |stock: Length, end: EndNeeds| stock.mm().max(end.hold_mm).max(end.square_mm).max(0.0);
    (trim(part.stock.lead, lead), trim(part.stock.tail, tail))
}
