//! Pieces of elements, and the smallest distance between two elements by halving them.

use std::f64::consts::PI;

use super::segment::nearest;
use crate::{BoundingBox, Element, ElementKind, Point3, Vector3};

/// How near the found distance is to the smallest one, mm: half of what is promised.
const SETTLED_MM: f64 = 5e-7;

/// A piece of one element, with the chord that stands for it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Piece {
    pub from_mm: f64,
    pub to_mm: f64,
    pub start: Point3<f64>,
    pub end: Point3<f64>,
    /// No point of the piece lies farther from its chord than this, mm: the mid-ordinate of an arc (G07).
    pub bulge_mm: f64,
}

impl Piece {
    /// The whole of an element, with its end where that is known already.
    pub fn whole(element: &Element, end: Option<Point3<f64>>) -> Self {
        let end = end.unwrap_or_else(|| element.end().origin);
        Self::between(element, (element.from_mm, element.start.origin), (element.to_mm(), end))
    }

    /// A box that holds the piece, which is the whole of `element`.
    pub fn bounding_box(&self, element: &Element) -> BoundingBox {
        let chord = BoundingBox::of_point(self.start).union(&BoundingBox::of_point(self.end));
        match element.kind {
            ElementKind::Straight => chord,
            // Up to half a turn an arc lies between its chord and the chord moved out to its middle.
            ElementKind::Arc { angle_rad, .. } if angle_rad <= PI => {
                let (sin, cos) = (angle_rad / 2.0).sin_cos();
                let out = (element.start.tangent * sin - element.start.normal * cos) * self.bulge_mm;
                chord.union(&BoundingBox { min: chord.min + out, max: chord.max + out })
            }
            ElementKind::Arc { .. } => {
                let bulge = Vector3::repeat(self.bulge_mm);
                BoundingBox { min: chord.min - bulge, max: chord.max + bulge }
            }
        }
    }

    fn between(element: &Element, (from_mm, start): (f64, Point3<f64>), (to_mm, end): (f64, Point3<f64>)) -> Self {
        let bulge_mm = match element.kind {
            ElementKind::Arc { radius_mm, .. } if radius_mm > 0.0 => {
                let angle_rad = (to_mm - from_mm) / radius_mm;
                let quarter = (angle_rad / 4.0).sin();
                // Past half a turn the arc reaches round the ends of its chord.
                if angle_rad > PI { 2.0 * radius_mm } else { 2.0 * radius_mm * quarter * quarter }
            }
            _ => 0.0,
        };
        Self { from_mm, to_mm, start, end, bulge_mm }
    }

    pub fn length_mm(&self) -> f64 {
        self.to_mm - self.from_mm
    }

    /// What of the piece lies between two stations, mm; `None` where that is nothing.
    pub fn within(&self, element: &Element, (from_mm, to_mm): (f64, f64)) -> Option<Self> {
        if from_mm <= self.from_mm && self.to_mm <= to_mm {
            return Some(*self);
        }
        let (from_mm, to_mm) = (from_mm.max(self.from_mm), to_mm.min(self.to_mm));
        (from_mm < to_mm)
            .then(|| Self::between(element, (from_mm, place(element, from_mm)), (to_mm, place(element, to_mm))))
    }

    /// Both halves.
    pub fn halves(&self, element: &Element) -> [Self; 2] {
        let middle_mm = (self.from_mm + self.to_mm) / 2.0;
        let middle = (middle_mm, place(element, middle_mm));
        [
            Self::between(element, (self.from_mm, self.start), middle),
            Self::between(element, middle, (self.to_mm, self.end)),
        ]
    }

    /// Nearest shares of the two chords, and a distance (mm) that the pieces cannot go below.
    pub fn at_least(&self, other: &Self) -> (f64, f64, f64) {
        let (s, t, squared) = nearest((&self.start, &self.end), (&other.start, &other.end));
        (s, t, (squared.sqrt() - self.bulge_mm - other.bulge_mm).max(0.0))
    }
}

/// The point of an element at a station (mm).
pub(crate) fn place(element: &Element, station_mm: f64) -> Point3<f64> {
    let along_mm = station_mm - element.from_mm;
    match element.kind {
        ElementKind::Straight => element.start.origin + element.start.tangent * along_mm,
        ElementKind::Arc { radius_mm, .. } if radius_mm > 0.0 => element.arc_point(radius_mm, along_mm / radius_mm),
        ElementKind::Arc { .. } => element.start.origin,
    }
}

/// The nearest places of two elements found so far.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Nearest {
    pub first_mm: f64,
    pub second_mm: f64,
    pub distance_mm: f64,
}

/// A search for the nearest places of two elements that lie at least `gap_mm` apart along the tube.
pub(crate) struct Search<'a> {
    pub first: &'a Element,
    pub second: &'a Element,
    pub gap_mm: f64,
    /// Pieces this short are not halved to meet the gap more exactly, mm.
    pub shortest_mm: f64,
    /// Only what is nearer counts, mm; falls as places are found.
    pub limit_mm: f64,
    pub found: Option<Nearest>,
}

impl Search<'_> {
    /// Searches two pieces. The bound by chords closes with the square of the pieces' length, so about
    /// as many pieces stay open at each halving, and there are some fifteen of these.
    pub fn run(&mut self, a: &Piece, b: &Piece) {
        if b.to_mm - a.from_mm < self.gap_mm {
            return;
        }
        let (s, t, at_least_mm) = a.at_least(b);
        if at_least_mm >= self.limit_mm - SETTLED_MM {
            return;
        }
        let is_free = b.from_mm - a.to_mm >= self.gap_mm;
        if is_free {
            self.try_places(a.from_mm + s * a.length_mm(), b.from_mm + t * b.length_mm());
        } else {
            self.try_places(a.from_mm, b.to_mm);
        }
        let bulge_mm = a.bulge_mm + b.bulge_mm;
        let longest_mm = a.length_mm().max(b.length_mm());
        let settled = if is_free { bulge_mm <= SETTLED_MM } else { longest_mm <= self.shortest_mm };
        if settled {
            return;
        }
        let split_first = if is_free { a.bulge_mm >= b.bulge_mm } else { a.length_mm() >= b.length_mm() };
        if split_first {
            let [low, high] = a.halves(self.first);
            // The half nearer to the chords' nearest place first: it lowers the limit for the other one.
            let order = if s < 0.5 { [low, high] } else { [high, low] };
            order.iter().for_each(|half| self.run(half, b));
        } else {
            let [low, high] = b.halves(self.second);
            let order = if t < 0.5 { [low, high] } else { [high, low] };
            order.iter().for_each(|half| self.run(a, half));
        }
    }

    fn try_places(&mut self, first_mm: f64, second_mm: f64) {
        let distance_mm = (place(self.first, first_mm) - place(self.second, second_mm)).norm();
        if distance_mm < self.limit_mm {
            self.limit_mm = distance_mm;
            self.found = Some(Nearest { first_mm, second_mm, distance_mm });
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use proptest::prelude::*;

    use super::super::segment::nearest;
    use super::*;
    use crate::Frame;

    fn arc(angle_rad: f64, radius_mm: f64, tilt: [f64; 3]) -> Element {
        let tangent = Vector3::from(tilt) + Vector3::new(0.0, 0.0, 2.0);
        let start = Frame::along(Point3::new(1.0, 2.0, 3.0), tangent, Vector3::x()).unwrap();
        Element {
            kind: ElementKind::Arc { radius_mm, angle_rad },
            from_mm: 50.0,
            length_mm: radius_mm * angle_rad,
            start,
        }
    }

    proptest! {
        /// What the search relies on: the box and the chord with its bulge hold every point of the arc.
        #[test]
        fn an_arc_stays_within_its_bounds(
            angle in 0.001..6.27f64, radius in 1.0..200.0f64, tilt in proptest::array::uniform3(-1.0..1.0f64),
        ) {
            let element = arc(angle, radius, tilt);
            let whole = Piece::whole(&element, None);
            let held = whole.bounding_box(&element);
            for piece in [whole, whole.halves(&element)[0], whole.halves(&element)[1]] {
                for step in 0..=100 {
                    let at = piece.from_mm + piece.length_mm() * f64::from(step) / 100.0;
                    let point = place(&element, at);
                    let (.., squared) = nearest((&point, &point), (&piece.start, &piece.end));
                    prop_assert!(squared.sqrt() <= piece.bulge_mm + 1e-9);
                    for axis in 0..3 {
                        prop_assert!(point[axis] >= held.min[axis] - 1e-9 && point[axis] <= held.max[axis] + 1e-9);
                    }
                }
            }
        }
    }
}
