//! Cures that more than one check offers.

use elbowroom_geometry::{Angle, Length};

use super::words::{bend, degrees, mm, tenth_up};
use super::{SAME_MM, Subject};
use crate::solve::grip;
use crate::{ClampOnTube, Cure, Edit};

/// Makes the straight ahead of a bend so long, rounded up to a tenth of a millimetre.
pub(crate) fn lengthen(subject: &Subject, index: usize, to_mm: f64) -> Cure {
    let solved = subject.solved;
    let missing_mm = to_mm - solved.bends[index].straight_ahead_mm;
    let target_mm = tenth_up(solved.straights_mm[index] + missing_mm);
    Cure {
        label: format!("Lengthen the straight to {}", mm(target_mm)),
        edit: Edit::SetStraight(index, Length::from_mm(target_mm)),
        risk: format!(
            "Everything beyond {} moves along by {}.",
            bend(index),
            mm(target_mm - solved.straights_mm[index])
        ),
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
    let mut shorter: Vec<_> = die.clamps.iter().filter(|one| one.length.mm() < clamp.length_mm - SAME_MM).collect();
    shorter.sort_by(|a, b| b.length.mm().total_cmp(&a.length.mm()));
    let taken = shorter.into_iter().find(|one| {
        let laid = seat.lay(one.length, die);
        cures(&laid) && grip::needed_mm(die, angle).is_some_and(|needed_mm| laid.gripped_mm >= needed_mm - SAME_MM)
    })?;
    let proved = degrees(taken.proved_angle.radians());
    let worst = solved.bends.iter().map(|bend| bend.angle_rad).fold(0.0, f64::max);
    let risk = if worst > taken.proved_angle.radians() + 1e-9 {
        format!("It then holds every bend of the part, and one of {} is more than it has proved.", degrees(worst))
    } else {
        "It then holds every bend of the part; a shorter grip leaves less in hand against slip.".into()
    };
    Some(Cure {
        label: format!("Take the {} clamp (proved to {proved})", mm(taken.length.mm())),
        edit: Edit::ChooseClamp(Some(taken.length)),
        risk,
    })
}
