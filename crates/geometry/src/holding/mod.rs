//! Keeping places of a path where they are while some of its figures change: a closed chain, solved for the change
//! that is least.
//!
//! The path is a chain of straights, rotations and bends. How a place of it moves with one of its figures is known
//! exactly: a straight carries everything beyond along, a rotation turns it about the straight, an angle about the
//! axis of the bend (the geometric Jacobian of a serial chain, derived here). Each step takes the least change that
//! meets the conditions as they look from there, until they are met (Gauss and Newton, with the pseudo-inverse of
//! Moore and Penrose).

mod chain;
mod least;
mod terms;

use crate::BendPath;
pub use terms::{Figure, Freedom, PathPlace, Pinned};

impl BendPath {
    /// The path with as little as can be changed of what may, so that every place lies where it has to. What may not
    /// change keeps its bits.
    ///
    /// `None` where there is no such path near this one, or only one with an angle that no bend has or with arcs that
    /// overlap where they did not before.
    pub fn keeping(&self, pinned: &[Pinned], freedom: &Freedom) -> Option<Self> {
        least::changed(self, pinned, freedom)
    }

    /// Where a place of the path lies: a point, the direction in which the tube comes in and that in which it goes out.
    /// `None` for a bend that the path does not have.
    pub fn pinned_as_it_is(&self, at: PathPlace) -> Option<Pinned> {
        chain::Chain::of(self).pinned(at)
    }
}
