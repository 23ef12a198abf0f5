//! The smallest distance between one element of a centreline and a body, by halving: arcs as arcs, never as facets.

use super::body::Body;
use crate::clearance::{Piece, place};
use crate::{Element, Point3};

/// How near the distance told may lie to the true one, mm: a tenth of a micrometre, and always below it.
pub const SETTLED_MM: f64 = 1e-4;

/// A place of the centreline, and the place of the body nearest to it, in the frame of the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Found {
    /// How far along the element, mm.
    pub along_mm: f64,
    pub distance_mm: f64,
    pub centre: Point3<f64>,
    pub on: Point3<f64>,
}

/// A search for the place at which an element, whose stations count from its own start, is nearest to a body.
pub(super) struct Search<'a> {
    pub element: &'a Element,
    pub body: &'a Body,
    /// Only what is nearer counts, mm; falls as places are found.
    pub limit_mm: f64,
    /// No place is nearer than this, mm, or than the limit where that is less.
    pub at_least_mm: f64,
    pub found: Option<Found>,
}

impl<'a> Search<'a> {
    /// A search for what is nearer than a limit.
    pub fn new(element: &'a Element, body: &'a Body, limit_mm: f64) -> Self {
        Self { element, body, limit_mm, at_least_mm: f64::INFINITY, found: None }
    }

    /// The first step alone: a bound from the whole of it, and one place.
    pub fn look(&mut self) {
        let piece = Piece::whole(self.element, None);
        match self.body.to_segment(&piece.start, &piece.end, self.limit_mm + piece.bulge_mm) {
            Some(touch) => {
                self.at_least_mm = touch.distance_mm - piece.bulge_mm;
                self.try_place(piece.from_mm + touch.share * piece.length_mm());
            }
            None => self.at_least_mm = self.limit_mm,
        }
        self.at_least_mm = self.at_least_mm.min(self.limit_mm);
    }

    /// Searches all of it.
    pub fn run(&mut self) {
        self.halve(&Piece::whole(self.element, None));
        self.at_least_mm = self.at_least_mm.min(self.limit_mm);
    }

    /// A piece of an arc lies within its bulge of its chord, and the chord is measured exactly; the bulge closes with
    /// the square of the length.
    fn halve(&mut self, piece: &Piece) {
        let Some(touch) = self.body.to_segment(&piece.start, &piece.end, self.limit_mm + piece.bulge_mm) else {
            self.at_least_mm = self.at_least_mm.min(self.limit_mm);
            return;
        };
        let at_least_mm = touch.distance_mm - piece.bulge_mm;
        if at_least_mm >= self.limit_mm - SETTLED_MM {
            self.at_least_mm = self.at_least_mm.min(at_least_mm);
            return;
        }
        self.try_place(piece.from_mm + touch.share * piece.length_mm());
        if piece.bulge_mm <= SETTLED_MM / 2.0 {
            self.at_least_mm = self.at_least_mm.min(at_least_mm);
            return;
        }
        let [low, high] = piece.halves(self.element);
        let order = if touch.share < 0.5 { [low, high] } else { [high, low] };
        order.iter().for_each(|half| self.halve(half));
    }

    fn try_place(&mut self, along_mm: f64) {
        let centre = place(self.element, along_mm);
        if let Some((distance_mm, on)) = self.body.to_point(&centre, self.limit_mm) {
            self.limit_mm = distance_mm;
            self.found = Some(Found { along_mm, distance_mm, centre, on });
        }
    }
}
