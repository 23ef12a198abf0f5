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

use nalgebra::{Point3, Vector3};

use crate::BendPath;

/// A place of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathPlace {
    /// Where the tube starts.
    Start,
    /// A bend, counted from 0: its vertex, or the middle of its arc where that is as large as
    /// [`crate::HANDLE_LIMIT`] and more.
    Bend(usize),
    /// Where the tube ends.
    Finish,
}

/// What has to hold of a place. Of a start nothing leads into it, of a finish nothing leads out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pinned {
    /// The place.
    pub at: PathPlace,
    /// Where it has to lie, mm.
    pub point: Option<Point3<f64>>,
    /// The direction in which the tube has to come in, a unit vector.
    pub into: Option<Vector3<f64>>,
    /// The direction in which it has to go out, a unit vector.
    pub out_of: Option<Vector3<f64>>,
}

/// A figure of a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Figure {
    /// A straight, counted from 0; the last one is that behind the last bend.
    Straight(usize),
    /// The rotation before a bend, counted from 0. That of the first bend turns the whole path about its first leg.
    Rotation(usize),
    /// The angle of a bend, counted from 0.
    Angle(usize),
}

/// What may change.
#[derive(Clone, Copy, Debug)]
pub struct Freedom<'a> {
    /// These figures.
    pub figures: &'a [Figure],
    /// Where the path starts.
    pub moves: bool,
    /// The direction in which it starts.
    pub turns: bool,
}

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
