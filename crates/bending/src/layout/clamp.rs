//! The clamp of one bend, laid on the tube ahead of it.

use elbowroom_geometry::Length;

use super::ahead::{Question, walk};
use super::order::InOrder;
use crate::{Basis, DieSet};

/// Less is no trim, mm: clamp and chuck hold as well on a leg that is so little short, and nobody saws so little off.
/// Common practice, no source.
pub(crate) const LEAST_TRIM_MM: f64 = 1.0;

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

/// A bend whose clamp is to be laid.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Seat<'a> {
    /// Every row of the part.
    pub order: InOrder<'a>,
    /// The bend, counted from 0 as drawn.
    pub bend: usize,
    /// Whether no bend is made before it, so that the clamp sits on the leg that leads.
    pub leads: bool,
    /// The straight ahead of it, mm.
    pub straight_mm: f64,
    /// Length along the tube up to which the clamp lies: the tangent point from which the bend is made, mm.
    pub at_mm: f64,
    /// The tube between that point and the end that is bent first, extra blank and all, mm.
    pub tube_ahead_mm: f64,
    /// Extra blank at that end, mm.
    pub lead_trim_mm: f64,
}

impl Seat<'_> {
    /// How far a clamp reaches past the end of the straight, mm; on the leg that leads there is nothing beyond.
    pub fn overlap_mm(&self, length_mm: f64) -> f64 {
        if self.leads { 0.0 } else { (length_mm - self.straight_mm).max(0.0) }
    }

    /// What of a gripped length there is tube for, mm. A leg that is a little short is held as well, and gets no trim.
    pub fn on_tube_mm(&self, gripped_mm: f64) -> f64 {
        if gripped_mm > self.tube_ahead_mm + LEAST_TRIM_MM { self.tube_ahead_mm.max(0.0) } else { gripped_mm }
    }

    /// Lays a clamp of the given length and measures what it does to the tube ahead.
    pub fn lay(&self, length: Length, die: &DieSet) -> ClampOnTube {
        let length_mm = length.mm();
        let away_mm = |by_mm: f64| self.at_mm + self.order.from.ahead() * by_mm;
        let far_mm = away_mm(length_mm);
        let mut clamp = ClampOnTube {
            length_mm,
            overlap_mm: 0.0,
            bite_mm: 0.0,
            bite_direction_rad: 0.0,
            bite_at_mm: far_mm,
            needs_straight_mm: length_mm,
            mark_free_straight_mm: length_mm,
            // On the leg that leads the clamp's own length is what it needs.
            straight_basis: if self.leads { Basis::Shop } else { die.basis },
            gripped_mm: length_mm,
            from_mm: far_mm.min(self.at_mm),
            to_mm: far_mm.max(self.at_mm),
        };
        if !self.leads {
            let overlap_mm = self.overlap_mm(length_mm);
            let limits_mm = [die.mark_free_bite.mm(), die.largest_bite.mm()];
            let question = Question { overlap_mm, reach_mm: length_mm.max(overlap_mm), limits_mm };
            let answer = walk(&self.order, self.bend, self.lead_trim_mm, &question);
            let smallest = |crossing: Option<f64>| (length_mm - crossing.unwrap_or(length_mm)).max(0.0);
            clamp.mark_free_straight_mm = smallest(answer.crossings_mm[0]);
            clamp.needs_straight_mm = smallest(answer.crossings_mm[1]);
            if overlap_mm > 0.0 {
                clamp.overlap_mm = overlap_mm;
                clamp.bite_mm = answer.bite.norm();
                clamp.bite_at_mm = away_mm(self.straight_mm + answer.bite_at_mm);
                if clamp.bite_mm > 0.0 {
                    clamp.bite_direction_rad = answer.bite.y.atan2(answer.bite.x);
                }
                // What lies within the mark-free bite is held as well as a straight.
                let free_mm = length_mm - clamp.mark_free_straight_mm;
                clamp.gripped_mm = length_mm.min((self.straight_mm + free_mm).max(0.0));
            }
        }
        clamp.gripped_mm = self.on_tube_mm(clamp.gripped_mm);
        clamp
    }
}
