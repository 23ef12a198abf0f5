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

/// What the trims follow from.
pub(crate) struct Ends<'a> {
    /// The part.
    pub part: &'a Part,
    /// The shop.
    pub shop: &'a Shop,
    /// Its bends, laid out.
    pub bends: &'a [SolvedBend],
    /// Its length, mm.
    pub developed_length_mm: f64,
}

impl Ends<'_> {
    /// What the start and the finish of the drawing ask for; `None` where nothing is bent.
    pub fn needs(&self) -> Option<[EndNeeds; 2]> {
        let (part, shop, from) = (self.part, self.shop, self.part.tooling.from);
        let first = self.bends.iter().find(|bend| bend.is_bent())?;
        let last = self.bends.iter().rfind(|bend| bend.is_bent())?;
        let legs_mm = [first.starts_at_mm, self.developed_length_mm - last.ends_at_mm()];
        let [made_first, _] = from.first_before([first, last]);
        let square_mm = shop.machine.square_end_diameters * part.tube.od.mm();
        let die = die_index(part, shop, Length::from_mm(made_first.clr_mm)).and_then(|die| shop.die_sets.get(die));
        let clamp_mm = die.and_then(|die| clamp_length(part, die)).map_or(0.0, Length::mm);
        let holds_mm = from.first_before([clamp_mm, shop.machine.tail_hold.mm()]);
        Some(std::array::from_fn(|end| EndNeeds {
            hold_mm: holds_mm[end] - legs_mm[end],
            square_mm: square_mm - legs_mm[end],
        }))
    }

    /// What the trims at the start and at the finish of the drawing rest on: a figure of the machine where that is what
    /// asks for most, else `None`: a clamp that is there, or stock that was put on by hand.
    pub fn bases(&self) -> [Option<Ground>; 2] {
        let Some(needs) = self.needs() else { return [None, None] };
        let (stocks, from) = (self.stocks(), self.part.tooling.from);
        let clamped = from.first_before([true, false]);
        std::array::from_fn(|end| {
            let EndNeeds { hold_mm, square_mm } = needs[end];
            let (asked_mm, rest_mm) = if clamped[end] { (square_mm, hold_mm) } else { (square_mm.max(hold_mm), 0.0) };
            (asked_mm > rest_mm.max(stocks[end]).max(0.0)).then(|| self.shop.machine.basis.into())
        })
    }

    /// Trims at the start and at the finish of the drawing, mm: what is asked for, or what was put on by hand where that
    /// is more.
    pub fn trims_mm(&self) -> [f64; 2] {
        let Some(needs) = self.needs() else { return [0.0, 0.0] };
        let stocks = self.stocks();
        std::array::from_fn(|end| stocks[end].max(needs[end].hold_mm).max(needs[end].square_mm).max(0.0))
    }

    fn stocks(&self) -> [f64; 2] {
        [self.part.stock.lead.mm(), self.part.stock.tail.mm()]
    }
}
