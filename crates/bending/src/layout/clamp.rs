//! The clamp of one bend, laid on the tube ahead of it.

use elbowroom_geometry::{BendRow, Length};

use super::ahead::{Question, walk};
use crate::{Basis, ClampOnTube, DieSet};

/// A bend whose clamp is to be laid.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Seat<'a> {
    /// Every row of the part.
    pub rows: &'a [BendRow],
    /// The bend, counted from 0.
    pub bend: usize,
    /// Whether no bend lies ahead of it, so that the clamp sits on the lead leg.
    pub leads: bool,
    /// The straight ahead of it, mm.
    pub straight_mm: f64,
    /// Length along the tube at which it starts, mm.
    pub starts_at_mm: f64,
    /// Extra blank before the lead end, mm.
    pub lead_trim_mm: f64,
}

impl Seat<'_> {
    /// Lays a clamp of the given length and measures what it does to the tube ahead.
    pub fn lay(&self, length: Length, die: &DieSet) -> ClampOnTube {
        let length_mm = length.mm();
        let mut clamp = ClampOnTube {
            length_mm,
            overlap_mm: 0.0,
            bite_mm: 0.0,
            bite_direction_rad: 0.0,
            bite_at_mm: self.starts_at_mm - length_mm,
            needs_straight_mm: length_mm,
            mark_free_straight_mm: length_mm,
            // On the leg that leads the clamp's own length is what it needs.
            straight_basis: if self.leads { Basis::Shop } else { die.basis },
            gripped_mm: length_mm,
            from_mm: self.starts_at_mm - length_mm,
            to_mm: self.starts_at_mm,
        };
        let tube_ahead_mm = (self.starts_at_mm + self.lead_trim_mm).max(0.0);
        if !self.leads {
            let overlap_mm = (length_mm - self.straight_mm).max(0.0);
            let limits_mm = [die.mark_free_bite.mm(), die.largest_bite.mm()];
            let question = Question { overlap_mm, reach_mm: length_mm.max(overlap_mm), limits_mm };
            let answer = walk(self.rows, self.bend, self.lead_trim_mm, &question);
            let smallest = |crossing: Option<f64>| (length_mm - crossing.unwrap_or(length_mm)).max(0.0);
            clamp.mark_free_straight_mm = smallest(answer.crossings_mm[0]);
            clamp.needs_straight_mm = smallest(answer.crossings_mm[1]);
            if overlap_mm > 0.0 {
                clamp.overlap_mm = overlap_mm;
                clamp.bite_mm = answer.bite.norm();
                clamp.bite_at_mm = self.starts_at_mm - self.straight_mm - answer.bite_at_mm;
                if clamp.bite_mm > 0.0 {
                    clamp.bite_direction_rad = answer.bite.y.atan2(answer.bite.x);
                }
                // What lies within the mark-free bite is held as well as a straight.
                let free_mm = length_mm - clamp.mark_free_straight_mm;
                clamp.gripped_mm = length_mm.min((self.straight_mm + free_mm).max(0.0));
            }
        }
        clamp.gripped_mm = clamp.gripped_mm.min(tube_ahead_mm);
        clamp
    }
}
