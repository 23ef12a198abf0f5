//! Lengths, angles and places in the words of findings.

use crate::{Cure, Solved};

/// A length to a tenth of a millimetre.
pub(crate) fn mm(length_mm: f64) -> String {
    format!("{:.1} mm", tidy(length_mm))
}

/// An angle to a tenth of a degree.
pub(crate) fn degrees(angle_rad: f64) -> String {
    format!("{:.1}°", tidy(angle_rad.to_degrees()))
}

/// The same number, but never the "-0.0" of a rounding error.
fn tidy(number: f64) -> f64 {
    if number.abs() < 0.05 { 0.0 } else { number }
}

/// The next tenth of a millimetre upwards, so that what a label says is what its edit does and suffices.
pub(crate) fn tenth_up(length_mm: f64) -> f64 {
    // A hundred-thousandth of a tenth is the rounding allowed between lengths that are the same.
    let tenths = (length_mm * 10.0 - 1e-5).ceil();
    if tenths == 0.0 { 0.0 } else { tenths / 10.0 }
}

/// A bend by its number on screen.
pub(crate) fn bend(index: usize) -> String {
    format!("bend {}", index + 1)
}

/// A straight by its place.
pub(crate) fn straight(index: usize, bends: usize) -> String {
    if bends > 0 && index == bends {
        format!("the tail after bend {index}")
    } else {
        format!("the straight before bend {}", index + 1)
    }
}

/// To which side an offset goes, from its direction about the clamp's axis (0 is the die).
pub(crate) fn direction(direction_rad: f64) -> &'static str {
    use std::f64::consts::FRAC_PI_4;
    let turned = direction_rad.abs();
    if turned <= FRAC_PI_4 {
        "towards the die"
    } else if turned >= 3.0 * FRAC_PI_4 {
        "into the clamp"
    } else {
        "along the parting line"
    }
}

/// The bend or straight in which a length along the tube lies, given as the last bend that can be
/// meant: arcs before straights, so that a tangent point belongs to its bend.
pub(crate) fn element_at(solved: &Solved, at_mm: f64, last_bend: usize) -> String {
    for index in (0..=last_bend).rev() {
        let arc = &solved.bends[index];
        if !arc.is_bent() {
            continue;
        }
        if at_mm > arc.ends_at_mm() + super::SAME_MM {
            return straight(index + 1, solved.bends.len());
        }
        if at_mm >= arc.starts_at_mm - super::SAME_MM {
            return bend(index);
        }
    }
    "the lead leg".into()
}

/// The cures as one sentence with a space before it; nothing where there are none.
pub(crate) fn cures_sentence(cures: &[Cure]) -> String {
    let mut sentence = String::new();
    for (index, cure) in cures.iter().enumerate() {
        if index == 0 {
            sentence.push(' ');
            sentence.push_str(&cure.label);
        } else {
            sentence.push_str(", or ");
            let mut rest = cure.label.chars();
            sentence.extend(rest.next().into_iter().flat_map(char::to_lowercase));
            sentence.push_str(rest.as_str());
        }
    }
    if !sentence.is_empty() {
        sentence.push('.');
    }
    sentence
}
