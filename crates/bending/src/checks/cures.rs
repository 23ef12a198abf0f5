//! Cures that more than one check offers.

use elbowroom_geometry::{Angle, Length};

use super::words::{Marked, degrees};
use super::{SAME_MM, Subject};
use crate::layout::grip;
use crate::{Clamp, ClampOnTube, Cure, DieSet, Edit, Path};

/// Makes the straight ahead of a bend so long, rounded up to what a person would set.
pub(crate) fn lengthen(subject: &Subject, index: usize, to_mm: f64) -> Cure {
    let solved = subject.solved;
    let missing_mm = to_mm - solved.bends[index].straight_ahead_mm;
    let straight = solved.clamped_straight(index);
    let target_mm = subject.round_mm(solved.straights_mm[straight] + missing_mm);
    Cure {
        label: format!("Lengthen the straight to {}", subject.length(target_mm)),
        edit: Edit::SetStraight(solved.nodes.straight(straight), Length::from_mm(target_mm)),
        risk: format!(
            "Everything {} moves along by {}.",
            subject.beyond(index),
            subject.length(target_mm - solved.straights_mm[straight])
        )
        .into(),
    }
}

/// Takes the longest shorter clamp of the die set with which `cures` holds, if it has also proved to
/// hold the bend on what it would grip.
pub(crate) fn shorter_clamp(
    subject: &Subject,
    index: usize,
    clamp: &ClampOnTube,
    cures: impl Fn(&ClampOnTube) -> bool,
) -> Option<Cure> {
    let solved = subject.solved;
    let (seat, die) = (subject.seat(index), subject.die_of(&solved.bends[index])?);
    let angle = Angle::from_radians(solved.bends[index].angle_rad);
    let needed_mm = grip::needed_mm(die, angle)?;
    let helps = |one: &Clamp| {
        let laid = seat.lay(one.length, die);
        cures(&laid) && laid.gripped_mm >= needed_mm - SAME_MM
    };
    let longest_below = |limit_mm: f64| {
        let shorter = die.clamps.iter().filter(|one| one.length.mm() < limit_mm);
        shorter.max_by(|a, b| a.length.mm().total_cmp(&b.length.mm()))
    };
    // From the longest down: to lay a clamp is what takes time.
    let mut taken = longest_below(clamp.length_mm - SAME_MM)?;
    while !helps(taken) {
        taken = longest_below(taken.length.mm()).filter(|one| one.length.mm() >= needed_mm - SAME_MM)?;
    }
    let proved = degrees(taken.proved_angle.radians()).resting_on(taken.basis);
    let worst = solved.largest_angle_rad;
    let risk = if worst > taken.proved_angle.radians() + 1e-9 {
        format!("It then holds every bend of the part, and one of {} is more than it has proved.", degrees(worst))
            .into()
    } else {
        "It then holds every bend of the part; a shorter grip leaves less in hand against slip.".into()
    };
    Some(Cure {
        label: format!("Take the {} clamp (proved to {proved})", subject.length(taken.length.mm())),
        edit: Edit::ChooseClamp(Some(taken.length)),
        risk,
    })
}

/// Takes the shortest longer clamp of the die set that grips so much here and neither marks the arc
/// before nor fails to close.
pub(crate) fn longer_clamp(subject: &Subject, index: usize, clamp: &ClampOnTube, needed_mm: f64) -> Option<Cure> {
    let (seat, die) = (subject.seat(index), subject.die_of(&subject.solved.bends[index])?);
    let longer = die.clamps.iter().filter(|one| one.length.mm() > clamp.length_mm + SAME_MM);
    let taken = longer.filter(|one| {
        let laid = seat.lay(one.length, die);
        // On the lead leg the blank grows with the clamp.
        let gripped_mm = if seat.leads { laid.length_mm } else { laid.gripped_mm };
        gripped_mm >= needed_mm - SAME_MM && laid.bite_mm <= die.mark_free_bite.mm() + SAME_MM
    });
    let taken = taken.min_by(|a, b| a.length.mm().total_cmp(&b.length.mm()))?;
    Some(Cure {
        label: format!(
            "Take the {} clamp (proved to {})",
            subject.length(taken.length.mm()),
            degrees(taken.proved_angle.radians()).resting_on(taken.basis)
        ),
        edit: Edit::ChooseClamp(Some(taken.length)),
        risk: "It then holds every bend of the part, and needs longer straights there.".into(),
    })
}

/// Gives a bend the radius of a die set.
pub(crate) fn set_clr(subject: &Subject, index: usize, die: &DieSet) -> Cure {
    let moves = match subject.part.path {
        Path::Vertices(_) => "The vertices stay and the straights beside the bend change.",
        Path::Bends(_) => "The straights stay and everything beyond moves.",
    };
    Cure {
        label: format!("Set CLR to {} ({})", subject.length(die.clr.mm()), die.name),
        edit: Edit::SetClr(subject.solved.nodes.bend(index), die.clr),
        risk: moves.into(),
    }
}

/// Gives a bend the radius of a die set for this tube: the nearest one, then the nearest on the other
/// side. Only radii that can be bent at all count.
pub(crate) fn die_radii(subject: &Subject, index: usize) -> Vec<Cure> {
    let clr_mm = subject.solved.bends[index].clr_mm;
    let od = subject.part.tube.od;
    let away_mm = |die: &&DieSet| (die.clr.mm() - clr_mm).abs();
    let usable = || {
        let dies = subject.shop.die_sets.iter();
        dies.filter(|die| die.takes(od) && die.clr.mm() > od.mm() / 2.0 + SAME_MM && !die.clamps.is_empty())
    };
    let Some(nearest) = usable().min_by(|a, b| away_mm(a).total_cmp(&away_mm(b))) else { return Vec::new() };
    let is_smaller = nearest.clr.mm() < clr_mm;
    let other = usable().filter(|die| (die.clr.mm() < clr_mm) != is_smaller);
    let other = other.min_by(|a, b| away_mm(a).total_cmp(&away_mm(b)));
    [Some(nearest), other].into_iter().flatten().map(|die| set_clr(subject, index, die)).collect()
}

/// Gives a bend the smallest larger radius of a die set for this tube that suffices.
pub(crate) fn larger_radius(subject: &Subject, index: usize, suffices: impl Fn(Length) -> bool) -> Option<Cure> {
    let clr_mm = subject.solved.bends[index].clr_mm;
    let dies = subject.shop.die_sets.iter();
    let larger = dies.filter(|die| {
        die.takes(subject.part.tube.od)
            && die.clr.mm() > clr_mm + SAME_MM
            && !die.clamps.is_empty()
            && suffices(die.clr)
    });
    larger.min_by(|a, b| a.clr.mm().total_cmp(&b.clr.mm())).map(|die| set_clr(subject, index, die))
}
