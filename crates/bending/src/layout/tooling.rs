//! Which die set and clamp bend what.

use elbowroom_geometry::Length;

use crate::{ClampLength, DieSet, Part, Shop};

/// The die set that bends a radius of this part, as an index into the shop's: the one chosen by name,
/// whether it fits or not (a check tells), else the first that fits.
pub(crate) fn die_index(part: &Part, shop: &Shop, clr: Length) -> Option<usize> {
    match &part.tooling.die {
        Some(name) => shop.die_sets.iter().position(|die| die.name == *name),
        None => shop.die_sets.iter().position(|die| die.fits(part.tube.od, clr)),
    }
}

/// The length of the clamp that holds this part on a die set: the chosen one, else the longest.
pub(crate) fn clamp_length(part: &Part, die: &DieSet) -> Option<Length> {
    part.tooling.clamp.map(ClampLength::length).or_else(|| die.longest_clamp().map(|clamp| clamp.length))
}
