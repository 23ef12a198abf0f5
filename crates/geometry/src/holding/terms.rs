//! What has to hold, and what may change.

use nalgebra::{Point3, Vector3};

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
