//! What the checks of the two ends have in common.

use elbowroom_geometry::Length;
use elbowroom_geometry::units::{LengthUnit, Shown};

use super::{SAME_MM, Subject};
use crate::layout::trims::{EndNeeds, needs};
use crate::{Cure, Edit, End, Place};

/// An end of the tube with the leg between it and the nearest bend.
pub(crate) struct Leg {
    /// Which end.
    pub end: End,
    /// The bend it belongs to.
    pub bend: usize,
    /// Its number on the drawing.
    pub number: usize,
    /// The end in words.
    pub name: &'static str,
    /// The leg in words.
    pub leg: &'static str,
    /// Whether the part is the drawing turned round.
    is_turned: bool,
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
}

impl Leg {
    /// Both legs, the lead one first; none where nothing is bent.
    pub fn both(subject: &Subject) -> Option<[Self; 2]> {
        let (solved, part) = (subject.solved, subject.part);
        let [lead, tail] = needs(part, subject.shop, &solved.bends, solved.developed_length_mm)?;
        let first = solved.bends.iter().position(|bend| bend.is_bent())?;
        let last = solved.bends.iter().rposition(|bend| bend.is_bent())?;
        let starts_mm = solved.bends[first].starts_at_mm;
        let ends_mm = solved.bends[last].ends_at_mm();
        let place = |from_mm: f64, to_mm: f64, bend, straight| Place {
            from_mm: from_mm.min(to_mm),
            to_mm: to_mm.max(from_mm),
            bend: Some(bend),
            straight: Some(straight),
        };
        Some([
            Self {
                end: End::Start,
                bend: first,
                number: subject.number(first),
                name: subject.end(End::Start),
                leg: subject.leg(End::Start),
                is_turned: subject.is_turned(),
                length_mm: starts_mm,
                needs: lead,
                stock_mm: part.stock.lead.mm(),
                place: place(0.0, starts_mm, first, first),
                unit: part.units,
            },
            Self {
                end: End::Finish,
                bend: last,
                number: subject.number(last),
                name: subject.end(End::Finish),
                leg: subject.leg(End::Finish),
                is_turned: subject.is_turned(),
                length_mm: solved.developed_length_mm - ends_mm,
                needs: tail,
                stock_mm: part.stock.tail.mm(),
                place: place(ends_mm, solved.developed_length_mm, last, solved.bends.len()),
                unit: part.units,
            },
        ])
    }

    /// Whether so much extra stock is wanted and not yet put on.
    pub fn lacks(&self, wanted_mm: f64) -> bool {
        wanted_mm > SAME_MM && self.stock_mm < wanted_mm - SAME_MM
    }

    /// Where the trim cut goes.
    pub fn cut(&self) -> String {
        let side = match (self.end, self.is_turned) {
            (End::Start, false) => "ahead of",
            (End::Finish, false) => "behind",
            (End::Start, true) => "after",
            (End::Finish, true) => "before",
        };
        format!("{} {side} bend {}", self.unit.shown(self.length_mm), self.number)
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
