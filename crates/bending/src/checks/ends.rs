//! What the checks of the two ends have in common.

use elbowroom_geometry::Length;
use elbowroom_geometry::units::Shown;

use super::cure::Remedy;
use super::finding::{Facts, Place};
use super::name::TubeEnd;
use super::subject::Subject;
use super::words::{Marked, Words};
use crate::forming::ground::Ground;
use crate::layout::clamp::LEAST_TRIM_MM;
use crate::layout::trims::{EndNeeds, Ends};
use crate::model::nearly::SAME_MM;
use crate::{End, LaidOut};

/// Springback that takes less is not worth a word, mm: it shows as nothing.
const LEAST_SHOWN_MM: f64 = 0.05;

/// An end of the tube with the leg between it and the nearest bend.
pub(crate) struct Leg {
    /// Which end of the drawing.
    pub end: TubeEnd,
    /// The bend it belongs to.
    pub bend: usize,
    /// Its length, mm, extra stock not counted.
    pub length_mm: f64,
    /// What it lacks.
    pub needs: EndNeeds,
    /// Extra stock that was put on by hand, mm.
    pub stock_mm: f64,
    /// Where it lies.
    pub place: Place,
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
            end: subject.end(end),
            bend,
            length_mm: to_mm - from_mm,
            needs,
            stock_mm: stock.mm(),
            place: Place {
                from_mm: from_mm.min(to_mm),
                to_mm: to_mm.max(from_mm),
                bend: Some(bend),
                straight: Some(straight(end, bend)),
            },
        };
        Some(subject.from().first_before([
            leg(End::Start, first, (0.0, solved.bends[first].starts_at_mm), at_start, part.stock.lead),
            leg(End::Finish, last, (solved.bends[last].ends_at_mm(), length_mm), at_finish, part.stock.tail),
        ]))
    }

    /// The straight of the drawing that ends there.
    pub fn straight(&self, solved: &LaidOut) -> usize {
        if self.end.end == End::Start { 0 } else { solved.bends.len() }
    }

    /// Whether so much extra stock is wanted and not yet put on.
    pub fn lacks(&self, wanted_mm: f64) -> bool {
        wanted_mm >= LEAST_TRIM_MM && self.stock_mm < wanted_mm - SAME_MM
    }

    /// What to say of so much extra stock.
    pub fn stock(&self, subject: &Subject, wanted_mm: f64) -> Stock {
        let EndNeeds { takes_mm, springback, .. } = self.needs;
        Stock { end: self.end, bend: subject.number(self.bend), wanted_mm, takes_mm, springback }
    }
}

/// Extra stock that an end wants: what the checks of the ends have found. The leg's length is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// The end.
    pub end: TubeEnd,
    /// The nearest bend, by its number.
    pub bend: u32,
    /// How much of it, mm.
    pub wanted_mm: f64,
    /// What springback takes of the leg, mm.
    pub takes_mm: f64,
    /// What that rests on, where it is known.
    pub springback: Option<Ground>,
}

impl Stock {
    /// Puts it on, rounded up to what a person would set in the unit of the part.
    pub fn add(&self, subject: &Subject) -> Remedy {
        Remedy::AddStock { end: self.end, stock_mm: subject.round_mm(self.wanted_mm) }
    }

    /// What springback takes of the leg, in the middle of a sentence; nothing where that is too little to show.
    pub fn less(&self, words: &Words) -> String {
        match self.springback {
            Some(ground) if self.takes_mm >= LEAST_SHOWN_MM => {
                format!(", less {} that springback takes", words.length(self.takes_mm).resting_on(ground))
            }
            _ => String::new(),
        }
    }

    /// So much stock, with the mark where it must look unsure.
    fn wanted(&self, facts: &Facts, words: &Words) -> Shown {
        let springback = self.springback.filter(|_| self.takes_mm != 0.0);
        let unsure = springback.into_iter().chain(facts.limit_basis).find(|ground| ground.unsure());
        words.length(self.wanted_mm).resting(unsure)
    }

    /// How much of it is asked for, and where it is cut off again.
    pub fn asked(&self, facts: &Facts, words: &Words) -> String {
        let left = words.length(facts.measured - self.takes_mm).resting(self.springback);
        let (wanted, side) = (self.wanted(facts, words), self.end.side());
        format!("{wanted} of extra stock, cut off after bending {left} {side} bend {}", self.bend)
    }

    /// The verdict where this stock is the first thing to say.
    pub fn said_first(&self, facts: &Facts, words: &Words) -> String {
        let wanted = self.wanted(facts, words);
        format!("Bends as drawn, with {wanted} of extra stock to trim at the {}.", self.end.name())
    }
}
