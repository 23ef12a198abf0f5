//! What a sentence is written with: the part's unit and the shop's names, and figures as they are shown.

use elbowroom_geometry::units::Shown;

use super::name::DieNumber;
use super::subject::Subject;
use crate::model::ground::{Ground, UNSURE_MARK};
use crate::{LaidOut, Part, Shop};

/// What it takes to write down what was found: the part, for its unit, the shop, for its names, and the part as it is laid
/// out, for the cures. They are those that the findings come from.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    /// The part.
    pub part: &'a Part,
    /// The shop it was solved against.
    pub shop: &'a Shop,
    laid_out: &'a LaidOut,
}

impl<'a> Words<'a> {
    /// The words for a part that is solved against a shop.
    pub const fn new(part: &'a Part, shop: &'a Shop, solved: &'a LaidOut) -> Self {
        Self { part, shop, laid_out: solved }
    }

    /// What the checks looked at.
    pub(crate) const fn subject(&self) -> Subject<'a> {
        Subject { part: self.part, shop: self.shop, solved: self.laid_out, around: &[] }
    }

    /// A length in the unit that the part shows.
    pub(crate) fn length(&self, length_mm: f64) -> Shown {
        self.part.units.shown(length_mm)
    }

    /// A smallest length, rounded up in the last decimal that is shown, so that what is said suffices.
    pub(crate) fn at_least(&self, length_mm: f64) -> Shown {
        self.length(self.part.units.at_least_mm(length_mm))
    }

    /// The name of a die set.
    pub(crate) fn die(&self, die: DieNumber) -> &'a str {
        self.shop.die_sets.get(die.place()).map_or("", |die| die.name.as_str())
    }
}

/// An angle to a tenth of a degree.
pub(crate) fn degrees(angle_rad: f64) -> Shown {
    Shown::new(angle_rad.to_degrees(), 1, "°")
}

/// Figures that can look unsure.
pub(crate) trait Marked: Sized {
    /// The figure with [`UNSURE_MARK`] before it where it rests on theory, common practice or memory.
    fn resting_on(self, ground: impl Into<Ground>) -> Self;

    /// The same where it may follow from the drawing and from what the shop owns.
    fn resting(self, ground: Option<Ground>) -> Self {
        match ground {
            Some(ground) => self.resting_on(ground),
            None => self,
        }
    }
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

/// A text with its first letter small.
pub(crate) fn lower_first(text: &str) -> String {
    let mut rest = text.chars();
    let first = rest.next().into_iter().flat_map(char::to_lowercase);
    first.chain(rest).collect()
}

/// What was found, and the cures as one more sentence.
pub(crate) fn with_cures(found: &mut String, labels: impl Iterator<Item = String>) {
    let mut is_first = true;
    for label in labels {
        found.push_str(if is_first { " " } else { ", or " });
        found.push_str(&if is_first { label } else { lower_first(&label) });
        is_first = false;
    }
    if !is_first {
        found.push('.');
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cures_make_one_sentence() {
        let said = |labels: &[&str]| {
            let mut text = String::from("Short.");
            with_cures(&mut text, labels.iter().map(|label| (*label).to_owned()));
            text
        };
        assert_eq!(said(&[]), "Short.");
        assert_eq!(said(&["Lengthen it", "Take that"]), "Short. Lengthen it, or take that.");
    }
}
