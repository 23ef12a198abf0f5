//! What a sentence is written with: the part's unit and the shop's names, and figures as they are shown.

use elbowroom_geometry::units::Shown;

use super::name::short;
use crate::model::ground::{Ground, UNSURE_MARK};
use crate::{Part, Shop};

/// What it takes to write down what was found: the part, for its unit, and the shop, for its names. They are those
/// that the part was solved with.
#[derive(Clone, Copy, Debug)]
pub struct Words<'a> {
    /// The part, as drawn or in the order of bending.
    pub part: &'a Part,
    /// The shop it was solved against.
    pub shop: &'a Shop,
}

impl<'a> Words<'a> {
    /// The words for a part in a shop.
    pub const fn new(part: &'a Part, shop: &'a Shop) -> Self {
        Self { part, shop }
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
        self.shop.die_sets.get(die.0 as usize).map_or("", |die| die.name.as_str())
    }
}

/// A die set by its place in the shop, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DieNumber(u32);

impl DieNumber {
    pub(crate) fn new(place: usize) -> Self {
        Self(short(place))
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
