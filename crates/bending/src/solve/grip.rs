//! What a clamp has proved to hold. The shop's own figures; between them a straight line (common
//! practice, no source).

use elbowroom_geometry::Angle;

use crate::DieSet;
use crate::checks::SAME_RAD;

/// The clamp lengths (mm) and proved angles (rad) of a die set, rising in both.
fn proved(die: &DieSet) -> impl Iterator<Item = (f64, f64)> {
    let mut order: Vec<_> = die.clamps.iter().map(|clamp| (clamp.length.mm(), clamp.proved_angle.radians())).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    // A longer clamp holds at least what a shorter one has proved.
    order.into_iter().scan(0.0_f64, |best, (length_mm, angle_rad)| {
        *best = best.max(angle_rad);
        Some((length_mm, *best))
    })
}

/// The gripped length that has proved itself for a bend angle, mm; `None` beyond what any clamp has.
pub(crate) fn needed_mm(die: &DieSet, angle: Angle) -> Option<f64> {
    // Degrees typed and degrees computed differ in the last bits.
    let angle_rad = angle.radians() - SAME_RAD;
    let (mut low_mm, mut low_rad) = (0.0, 0.0);
    for (length_mm, proved_rad) in proved(die) {
        if angle_rad <= proved_rad {
            let share =
                if proved_rad > low_rad { ((angle_rad - low_rad) / (proved_rad - low_rad)).max(0.0) } else { 0.0 };
            return Some(low_mm + share * (length_mm - low_mm));
        }
        (low_mm, low_rad) = (length_mm, proved_rad);
    }
    None
}

/// The largest angle any clamp of the die set has proved to hold.
pub(crate) fn largest_proved(die: &DieSet) -> Angle {
    Angle::from_radians(die.clamps.iter().map(|clamp| clamp.proved_angle.radians()).fold(0.0, f64::max))
}

/// The largest angle that has proved itself on so much gripped length; no more than the longest clamp's.
pub(crate) fn held(die: &DieSet, gripped_mm: f64) -> Angle {
    let (mut low_mm, mut low_rad) = (0.0, 0.0);
    for (length_mm, proved_rad) in proved(die) {
        if gripped_mm < length_mm {
            let share = if length_mm > low_mm { ((gripped_mm - low_mm) / (length_mm - low_mm)).max(0.0) } else { 0.0 };
            return Angle::from_radians(low_rad + share * (proved_rad - low_rad));
        }
        (low_mm, low_rad) = (length_mm, proved_rad);
    }
    Angle::from_radians(low_rad)
}
