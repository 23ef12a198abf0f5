//! Lengths, angles and places in the words of findings.

use std::fmt::{self, Write};

use elbowroom_geometry::units::Shown;

use crate::Cure;
use crate::forming::ground::Ground;
use crate::setup::UNSURE_MARK;

/// An angle to a tenth of a degree.
pub(crate) fn degrees(angle_rad: f64) -> Shown {
    Shown::new(angle_rad.to_degrees(), 1, "°")
}

/// Figures that can look unsure.
pub(crate) trait Marked {
    /// The figure with [`UNSURE_MARK`] before it where it rests on theory, common practice or memory.
    fn resting_on(self, ground: impl Into<Ground>) -> Self;
}

impl Marked for Shown {
    fn resting_on(self, ground: impl Into<Ground>) -> Self {
        if ground.into().unsure() { self.behind(UNSURE_MARK) } else { self }
    }
}

/// A share in percent, to a tenth.
pub(crate) fn percent(share: f64) -> Shown {
    Shown::new(share * 100.0, 1, " %")
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

/// Appends a text with its first letter small.
pub(crate) fn push_lower_first(to: &mut String, text: &str) {
    let mut rest = text.chars();
    to.extend(rest.next().into_iter().flat_map(char::to_lowercase));
    to.push_str(rest.as_str());
}

/// Room for most sentences with their cures, so that they are written in one go.
const ROOM: usize = 320;

/// What was found, and the cures as one more sentence.
pub(crate) fn with_cures(found: fmt::Arguments<'_>, cures: &[Cure]) -> String {
    let mut text = String::with_capacity(ROOM);
    // Writing to a string does not fail.
    let _ = text.write_fmt(found);
    for (index, cure) in cures.iter().enumerate() {
        if index == 0 {
            text.push(' ');
            text.push_str(&cure.label);
        } else {
            text.push_str(", or ");
            push_lower_first(&mut text, &cure.label);
        }
    }
    if !cures.is_empty() {
        text.push('.');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cures_make_one_sentence() {
        let cure = |label: &str| Cure { label: label.into(), edit: crate::Edit::SwapEnds, risk: "".into() };
        assert_eq!(with_cures(format_args!("Short."), &[]), "Short.");
        let cures = [cure("Lengthen it"), cure("Take that")];
        assert_eq!(with_cures(format_args!("Short."), &cures), "Short. Lengthen it, or take that.");
    }
}
