//! What the checks of the two ends have in common.

use elbowroom_geometry::Length;
use elbowroom_geometry::units::{LengthUnit, Shown};

use super::words::Marked;
use super::{SAME_MM, Subject};
use crate::forming::ground::Ground;
use crate::layout::trims::{EndNeeds, Ends, LEAST_TRIM_MM};
use crate::{Cure, Edit, End, Place, Solved};

/// Springback that takes less is not worth a word, mm: it shows as nothing.
const LEAST_SHOWN_MM: f64 = 0.05;

/// An end of the tube with the leg between it and the nearest bend.
pub(crate) struct Leg {
    /// Which end of the drawing.
    pub end: End,
    /// The bend it belongs to.
    pub bend: usize,
    /// Its number.
    pub number: usize,
    /// The end in words.
    pub name: &'static str,
    /// The leg in words.
    pub leg: &'static str,
    /// Its length, mm, extra stock not counted.
    pub length_mm: f64,
    /// What it lacks.
    pub needs: EndNeeds,
    /// Extra stock that was put on by hand, mm.
    pub stock_mm: f64,
    /// Where it lies.
    pub place: Place,
    /// The unit that the part shows.
    unit: LengthUnit,
    /// Whether the finish of the drawing is bent first.
    is_from_finish: bool,
}

impl Leg {
    /// Both legs, that which is bent first before the other; none where nothing is bent.
    pub fn both(subject: &Subject) -> Option<[Self; 2]> {
        let (solved, part) = (subject.solved, subject.part);
        let length_mm = solved.developed_length_mm;
        let [at_start, at_finish] =
            Ends { part, shop: subject.shop, bends: &solved.bends, developed_length_mm: length_mm }.needs()?;
        let first = solved.bends.iter().position(|bend| bend.is_bent())?;
        let last = solved.bends.iter().rposition(|bend| bend.is_bent())?;
        let straight = |end: End, bend: usize| match end {
            _ if end == solved.from => solved.clamped_straight(bend),
            End::Start => 0,
            End::Finish => solved.bends.len(),
        };
        let leg = |end: End, bend: usize, (from_mm, to_mm): (f64, f64), needs, stock: Length| Self {
            end,
            bend,
            number: subject.number(bend),
            name: subject.end(end),
            leg: subject.leg(end),
            length_mm: to_mm - from_mm,
            needs,
            stock_mm: stock.mm(),
            place: Place {
                from_mm: from_mm.min(to_mm),
                to_mm: to_mm.max(from_mm),
                bend: Some(bend),
                straight: Some(straight(end, bend)),
            },
            unit: part.units,
            is_from_finish: subject.is_from_finish(),
        };
        Some(subject.from().first_before([
            leg(End::Start, first, (0.0, solved.bends[first].starts_at_mm), at_start, part.stock.lead),
            leg(End::Finish, last, (solved.bends[last].ends_at_mm(), length_mm), at_finish, part.stock.tail),
        ]))
    }

    /// The straight of the drawing that ends there.
    pub fn straight(&self, solved: &Solved) -> usize {
        if self.end == End::Start { 0 } else { solved.bends.len() }
    }

    /// Whether so much extra stock is wanted and not yet put on.
    pub fn lacks(&self, wanted_mm: f64) -> bool {
        wanted_mm >= LEAST_TRIM_MM && self.stock_mm < wanted_mm - SAME_MM
    }

    /// What springback takes of the leg, in the middle of a sentence; nothing where that is too little to show.
    pub fn less(&self) -> String {
        let (takes_mm, shown) = (self.needs.takes_mm, self.unit.shown(self.needs.takes_mm));
        match self.needs.springback {
            Some(ground) if takes_mm >= LEAST_SHOWN_MM => {
                format!(", less {} that springback takes", shown.resting_on(ground))
            }
            _ => String::new(),
        }
    }

    /// So much stock, with the mark where it must look unsure; `limit` is what it is asked for by.
    pub fn stock(&self, wanted_mm: f64, limit: Option<Ground>) -> Shown {
        let shown = self.unit.shown(wanted_mm);
        let springback = self.needs.springback.filter(|_| self.needs.takes_mm != 0.0);
        let unsure = springback.into_iter().chain(limit).find(|ground| ground.unsure());
        unsure.map_or(shown, |ground| shown.resting_on(ground))
    }

    /// Where the trim cut goes.
    pub fn cut(&self) -> String {
        let side = match (self.end, self.is_from_finish) {
            (End::Start, false) => "ahead of",
            (End::Finish, false) => "behind",
            (End::Start, true) => "before",
            (End::Finish, true) => "after",
        };
        let left = self.unit.shown(self.length_mm - self.needs.takes_mm);
        let left = self.needs.springback.map_or(left, |ground| left.resting_on(ground));
        format!("{left} {side} bend {}", self.number)
    }

    /// Puts the stock on, rounded up to what a person would set.
    pub fn add_stock(&self, wanted_mm: f64) -> Cure {
        let stock_mm = self.unit.round_mm(wanted_mm);
        Cure {
            label: format!("Put {} of extra stock on the {}", self.unit.shown(stock_mm), self.name),
            edit: Edit::SetStock(self.end, Length::from_mm(stock_mm)),
            risk: "A longer blank, and a cut after bending.".into(),
        }
    }

    /// The verdict where this stock is the first thing to say.
    pub fn verdict(&self, wanted: Shown) -> String {
        format!("Bends as drawn, with {wanted} of extra stock to trim at the {}.", self.name)
    }
}
