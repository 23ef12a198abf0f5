//! Cures that more than one check offers.

use std::cell::OnceCell;

use elbowroom_geometry::{Angle, Length};

use super::cure::{ClampCosts, Cures, Remedy};
use super::name::DieNumber;
use super::subject::Subject;
use crate::layout::clamp::Seat;
use crate::model::grip;
use crate::model::nearly::{SAME_MM, SAME_RAD};
use crate::{Clamp, ClampOnTube, DieSet, Path};

/// Makes the straight ahead of a bend so long, rounded up to what a person would set.
pub(crate) fn lengthen(subject: &Subject, index: usize, to_mm: f64) -> Remedy {
    let solved = subject.solved;
    let missing_mm = to_mm - solved.bends[index].straight_ahead_mm;
    let straight = solved.clamped_straight(index);
    let target_mm = subject.round_mm(solved.straights_mm[straight] + missing_mm);
    Remedy::Lengthen {
        straight: solved.nodes.straight(straight),
        ahead: subject.ahead(index),
        to_mm: target_mm,
        by_mm: target_mm - solved.straights_mm[straight],
    }
}

/// A clamp that is tried on the seat of a bend. To lay it takes time, and one that lies on the straight alone does without.
pub(crate) struct Tried<'a> {
    seat: &'a Seat<'a>,
    die: &'a DieSet,
    length: Length,
    laid: OnceCell<ClampOnTube>,
}

impl<'a> Tried<'a> {
    fn on(seat: &'a Seat, die: &'a DieSet, clamp: &Clamp) -> Self {
        Self { seat, die, length: clamp.length, laid: OnceCell::new() }
    }

    fn laid(&self) -> &ClampOnTube {
        self.laid.get_or_init(|| self.seat.lay(self.length, self.die))
    }

    /// Its length, mm.
    pub fn length_mm(&self) -> f64 {
        self.length.mm()
    }

    /// Whether it reaches over nothing but the straight.
    pub fn is_on_straight(&self) -> bool {
        self.seat.overlap_mm(self.length.mm()) <= 0.0
    }

    /// Whether the straight is long enough for it to close.
    pub fn closes(&self) -> bool {
        self.is_on_straight() || self.seat.straight_mm >= self.laid().needs_straight_mm - SAME_MM
    }

    /// How far it reaches past the straight, mm.
    pub fn overlap_mm(&self) -> f64 {
        self.seat.overlap_mm(self.length.mm())
    }

    /// Its bite, mm.
    pub fn bite_mm(&self) -> f64 {
        if self.is_on_straight() { 0.0 } else { self.laid().bite_mm }
    }

    /// What it grips, mm.
    pub fn gripped_mm(&self) -> f64 {
        if self.is_on_straight() { self.seat.on_tube_mm(self.length.mm()) } else { self.laid().gripped_mm }
    }
}

/// Takes the longest shorter clamp of the die set with which `cures` holds, if it has also proved to
/// hold the bend on what it would grip.
pub(crate) fn shorter_clamp(
    subject: &Subject,
    index: usize,
    clamp: &ClampOnTube,
    cures: impl Fn(&Tried) -> bool,
) -> Option<Remedy> {
    let solved = subject.solved;
    let (seat, die) = (subject.seat(index), subject.die_of(&solved.bends[index])?);
    let angle = Angle::from_radians(solved.bends[index].angle_rad);
    let needed_mm = grip::needed_mm(die, angle)?;
    let helps = |one: &Clamp| {
        let tried = Tried::on(&seat, die, one);
        cures(&tried) && tried.gripped_mm() >= needed_mm - SAME_MM
    };
    // From the longest down, as the guard of a die set has put them, and no further than can help: to lay a clamp takes time.
    let shorter = die.clamps.iter().rev().filter(|one| one.length.mm() < clamp.length_mm - SAME_MM);
    let taken = shorter.take_while(|one| one.length.mm() >= needed_mm - SAME_MM).find(|one| helps(one))?;
    let worst = solved.largest_angle_rad;
    let is_proved = worst <= taken.proved_angle.radians() + SAME_RAD;
    Some(take(taken, if is_proved { ClampCosts::Grip } else { ClampCosts::Unproved(worst) }))
}

/// Takes a clamp of the shop.
pub(crate) fn take(clamp: &Clamp, costs: ClampCosts) -> Remedy {
    Remedy::TakeClamp { length: clamp.length, proved: clamp.proved_angle, basis: clamp.basis, costs }
}

/// Takes the shortest longer clamp of the die set that grips so much here and neither marks the arc
/// before nor fails to close.
pub(crate) fn longer_clamp(subject: &Subject, index: usize, clamp: &ClampOnTube, needed_mm: f64) -> Option<Remedy> {
    let (seat, die) = (subject.seat(index), subject.die_of(&subject.solved.bends[index])?);
    let mut longer = die.clamps.iter().filter(|one| one.length.mm() > clamp.length_mm + SAME_MM);
    let taken = longer.find(|one| {
        let tried = Tried::on(&seat, die, one);
        // On the lead leg the blank grows with the clamp.
        let gripped_mm = if seat.leads { tried.length_mm() } else { tried.gripped_mm() };
        gripped_mm >= needed_mm - SAME_MM && tried.bite_mm() <= die.mark_free_bite.mm() + SAME_MM
    })?;
    Some(take(taken, ClampCosts::Straights))
}

/// Gives a bend the radius of a die set.
pub(crate) fn set_clr(subject: &Subject, index: usize, die: DieNumber, clr: Length) -> Remedy {
    let keeps_vertices = matches!(subject.part.path, Path::Vertices(_));
    Remedy::SetClr { bend: subject.solved.nodes.bend(index), die, clr, keeps_vertices }
}

/// Of the die sets that bend this tube at all, and of which `counts` holds, the one whose radius is nearest to that of a bend.
fn nearest_die<'a>(
    subject: &Subject<'a>,
    index: usize,
    counts: impl Fn(&DieSet) -> bool,
) -> Option<(usize, &'a DieSet)> {
    let (clr_mm, od) = (subject.solved.bends[index].clr_mm, subject.part.tube.od);
    let away_mm = |(_, die): &(usize, &DieSet)| (die.clr.mm() - clr_mm).abs();
    let dies = subject.shop.die_sets.iter().enumerate();
    let usable = dies.filter(|(_, die)| {
        die.takes(od) && die.clr.mm() > od.mm() / 2.0 + SAME_MM && !die.clamps.is_empty() && counts(die)
    });
    usable.min_by(|a, b| away_mm(a).total_cmp(&away_mm(b)))
}

/// The radius nearest to that of a bend that the shop could bend this tube to.
pub(crate) fn nearest_radius(subject: &Subject, index: usize) -> Option<Length> {
    nearest_die(subject, index, |_| true).map(|(_, die)| die.clr)
}

/// Gives a bend the radius of a die set for this tube: the nearest one, then the nearest on the other
/// side. Only radii that can be bent at all count.
pub(crate) fn die_radii(subject: &Subject, index: usize) -> Option<Cures> {
    let clr_mm = subject.solved.bends[index].clr_mm;
    let nearest = nearest_die(subject, index, |_| true)?;
    let is_smaller = nearest.1.clr.mm() < clr_mm;
    let other = nearest_die(subject, index, |die| (die.clr.mm() < clr_mm) != is_smaller);
    let set = |(place, die): (usize, &DieSet)| set_clr(subject, index, DieNumber::new(place), die.clr);
    Some(Cures::from(set(nearest)).and(other.map(set)))
}

/// Gives a bend the smallest larger radius of a die set for this tube that suffices.
pub(crate) fn larger_radius(subject: &Subject, index: usize, suffices: impl Fn(Length) -> bool) -> Option<Remedy> {
    let clr_mm = subject.solved.bends[index].clr_mm;
    let dies = subject.shop.die_sets.iter().enumerate();
    let larger = dies.filter(|(_, die)| {
        die.takes(subject.part.tube.od)
            && die.clr.mm() > clr_mm + SAME_MM
            && !die.clamps.is_empty()
            && suffices(die.clr)
    });
    let (place, die) = larger.min_by(|a, b| a.1.clr.mm().total_cmp(&b.1.clr.mm()))?;
    Some(set_clr(subject, index, DieNumber::new(place), die.clr))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use proptest::prelude::*;

    use super::*;
    use crate::specimen::{self, row};

    proptest! {
        #[test]
        fn a_clamp_that_is_tried_is_as_one_that_is_laid(
            straight_mm in 0.0..150.0f64, angle in 5.0..120.0f64, rotation in -180.0..180.0f64, length_mm in 20.0..150.0f64
        ) {
            let rows = vec![row(300.0, 0.0, angle), row(straight_mm, rotation, 90.0)];
            let (part, shop) = (specimen::part(rows, 300.0).unwrap(), specimen::shop());
            let solved = crate::solve(&part, &shop);
            let (seat, die) = (solved.seat(1), &shop.die_sets[0]);
            let length = Length::from_mm(length_mm);
            let laid = seat.lay(length, die);
            let tried = Tried { seat: &seat, die, length, laid: OnceCell::new() };
            prop_assert_eq!(tried.closes(), straight_mm >= laid.needs_straight_mm - SAME_MM);
            prop_assert_eq!(
                [tried.length_mm(), tried.overlap_mm(), tried.bite_mm(), tried.gripped_mm()],
                [laid.length_mm, laid.overlap_mm, laid.bite_mm, laid.gripped_mm]
            );
        }
    }
}
