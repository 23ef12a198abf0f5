//! What a check looks at.

use std::f64::consts::PI;

use super::name::DieNumber;
use crate::layout::around::Clearance;
use crate::layout::clamp::Seat;
use crate::{DieSet, LaidOut, Part, Place, Shop, SolvedBend};

/// What a check looks at: the part, the shop, and the part solved so far (no findings yet).
#[derive(Clone, Copy)]
pub struct Subject<'a> {
    /// The part.
    pub part: &'a Part,
    /// The shop it is to be made in.
    pub shop: &'a Shop,
    /// The solution, without findings. Bends, straights, places and cures are those of the drawing, whichever end is
    /// bent first.
    pub solved: &'a LaidOut,
    /// How near the tube comes to what stands around it; nothing where nobody has measured that.
    pub around: &'a [Clearance],
}

impl<'a> Subject<'a> {
    /// The next round length upwards in the unit that the part shows, mm, so that what a label says is
    /// what its edit does and suffices.
    pub(crate) fn round_mm(&self, length_mm: f64) -> f64 {
        self.part.units.round_mm(length_mm)
    }

    /// The die set that bends a bend.
    pub(crate) fn die_of(&self, bend: &SolvedBend) -> Option<&'a DieSet> {
        bend.die.and_then(|die| self.shop.die_sets.get(die))
    }

    /// The same with its place in the shop.
    pub(crate) fn numbered_die_of(&self, bend: &SolvedBend) -> Option<(DieNumber, &'a DieSet)> {
        let place = bend.die?;
        Some((DieNumber::new(place), self.shop.die_sets.get(place)?))
    }

    /// The bend that is made before bend `index`.
    pub(crate) fn bend_before(&self, index: usize) -> Option<usize> {
        self.solved.bend_before(index)
    }

    /// Whether bend `index` stands for a vertex at which the drawing turns straight back. In vertex form
    /// nothing else is half a turn to the bit without a radius.
    pub(crate) fn is_fold_back(&self, index: usize) -> bool {
        let bend = &self.solved.bends[index];
        bend.vertex.is_some() && bend.clr_mm == 0.0 && bend.angle_rad == PI
    }

    /// The arc of bend `index` as a place.
    pub(crate) fn arc_place(&self, index: usize) -> Place {
        let bend = &self.solved.bends[index];
        Place { from_mm: bend.starts_at_mm, to_mm: bend.ends_at_mm(), bend: Some(index), straight: None }
    }

    /// The straight ahead of bend `index` as a place, or the stretch on which it overlaps the bend made before it.
    pub(crate) fn place_ahead(&self, index: usize) -> Place {
        let (from_mm, to_mm) = self.solved.ahead_mm(index);
        Place { from_mm, to_mm, bend: Some(index), straight: Some(self.solved.clamped_straight(index)) }
    }

    /// Bend `index` as a seat for clamps other than the chosen one.
    pub(crate) fn seat(&self, index: usize) -> Seat<'a> {
        self.solved.seat(index)
    }
}
