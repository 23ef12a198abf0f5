//! What a clamp has proved to hold. The shop's own figures; between them a straight line (common
//! practice, no source).

use elbowroom_geometry::{Angle, Length};

use super::nearly::SAME_RAD;
use super::shop::{Clamp, DieSet};

impl DieSet {
    /// The largest angle that has proved itself on so much gripped length: the shop's own figures, and a
    /// straight line between them (common practice, no source). No more than the longest clamp's.
    pub fn holds(&self, gripped: Length) -> Angle {
        held(self, gripped.mm())
    }

    /// The gripped length that has proved itself for a bend angle; `None` beyond what any clamp has.
    pub fn grip_needed(&self, angle: Angle) -> Option<Length> {
        needed_mm(self, angle).map(Length::from_mm)
    }
}

/// A clamp of a die set as what it has proved: its length, mm, and the angle, radians.
type Proved = (f64, f64);

fn proved(clamp: &Clamp) -> Proved {
    (clamp.length.mm(), clamp.proved_angle.radians())
}

/// The longest of the clamps before this one and the largest angle that any of them has proved: a longer clamp
/// holds at least what a shorter one has proved. Nothing where there are none.
fn before(die: &DieSet, index: usize) -> Proved {
    // Behind the guard clamps lie in rising length.
    let shorter = die.clamps[..index].iter().map(proved);
    shorter.fold((0.0, 0.0), |best, one| (one.0, one.1.max(best.1)))
}

/// The gripped length that has proved itself for a bend angle, mm; `None` beyond what any clamp has.
pub(crate) fn needed_mm(die: &DieSet, angle: Angle) -> Option<f64> {
    // Degrees typed and degrees computed differ in the last bits.
    let angle_rad = angle.radians() - SAME_RAD;
    let index = die.clamps.iter().position(|one| angle_rad <= one.proved_angle.radians())?;
    let (enough, (low_mm, low_rad)) = (proved(&die.clamps[index]), before(die, index));
    let share = if enough.1 > low_rad { ((angle_rad - low_rad) / (enough.1 - low_rad)).max(0.0) } else { 0.0 };
    Some(low_mm + share * (enough.0 - low_mm))
}

/// The largest angle any clamp of the die set has proved to hold.
pub(crate) fn largest_proved(die: &DieSet) -> Angle {
    Angle::from_radians(before(die, die.clamps.len()).1)
}

/// The largest angle that has proved itself on so much gripped length; no more than the longest clamp's.
pub(crate) fn held(die: &DieSet, gripped_mm: f64) -> Angle {
    let Some(index) = die.clamps.iter().position(|one| gripped_mm < one.length.mm()) else {
        return largest_proved(die);
    };
    let (longer, (low_mm, low_rad)) = (proved(&die.clamps[index]), before(die, index));
    let share = if longer.0 > low_mm { ((gripped_mm - low_mm) / (longer.0 - low_mm)).max(0.0) } else { 0.0 };
    Angle::from_radians(low_rad + share * (longer.1.max(low_rad) - low_rad))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::specimen::{CLR_MM, OD_MM, change, clamp, die_set};

    /// The same by way of the whole list, rising in length and angle: between its points a straight line.
    fn line(die: &DieSet) -> Vec<Proved> {
        let mut line: Vec<Proved> = die.clamps.iter().map(proved).collect();
        line.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut best = 0.0_f64;
        for (_, angle_rad) in &mut line {
            best = best.max(*angle_rad);
            *angle_rad = best;
        }
        line.insert(0, (0.0, 0.0));
        line
    }

    fn slow_needed_mm(die: &DieSet, angle: Angle) -> Option<f64> {
        let angle_rad = angle.radians() - SAME_RAD;
        let line = line(die);
        let pair = line.windows(2).find(|pair| angle_rad <= pair[1].1)?;
        let ((low_mm, low_rad), (mm, rad)) = (pair[0], pair[1]);
        let share = if rad > low_rad { ((angle_rad - low_rad) / (rad - low_rad)).max(0.0) } else { 0.0 };
        Some(low_mm + share * (mm - low_mm))
    }

    fn slow_held(die: &DieSet, gripped_mm: f64) -> f64 {
        let line = line(die);
        let Some(pair) = line.windows(2).find(|pair| gripped_mm < pair[1].0) else {
            return line.last().map_or(0.0, |last| last.1);
        };
        let ((low_mm, low_rad), (mm, rad)) = (pair[0], pair[1]);
        let share = if mm > low_mm { ((gripped_mm - low_mm) / (mm - low_mm)).max(0.0) } else { 0.0 };
        low_rad + share * (rad - low_rad)
    }

    proptest! {
        #[test]
        fn as_along_the_whole_list(
            clamps in prop::collection::hash_map(1..8u8, 1..8u8, 1..6), angle in 0.0..200.0f64, gripped in 0.0..200.0f64
        ) {
            let clamp = |(length, angle): (u8, u8)| clamp(f64::from(length) * 20.0, f64::from(angle) * 25.0);
            let mut die = die_set("die", OD_MM, CLR_MM);
            change(&mut die, |die| die.clamps = clamps.into_iter().map(clamp).collect());
            let angle = Angle::from_degrees(angle);
            prop_assert_eq!(needed_mm(&die, angle), slow_needed_mm(&die, angle));
            prop_assert_eq!(held(&die, gripped).radians(), slow_held(&die, gripped));
        }
    }
}
