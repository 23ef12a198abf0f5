//! How far an arc that does not begin on the clamp's axis strays from it.

use std::f64::consts::{FRAC_PI_2, PI};

use nalgebra::Vector2;

/// An arc seen along the clamp's axis, walked away from the bend being made.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ArcOffset {
    /// Offset at its beginning, mm.
    pub from: Vector2<f64>,
    /// Unit direction of the walk, across the axis.
    pub along: Vector2<f64>,
    /// Unit direction to its centre, across the axis.
    pub inward: Vector2<f64>,
    /// Radius, mm. Above 0.
    pub radius_mm: f64,
}

/// At most this many turning points of the offset lie within a quarter turn, with the quarter's end.
const STOPS: usize = 5;

impl ArcOffset {
    /// The offset after so many radians.
    fn at(&self, turned: f64) -> Vector2<f64> {
        let (sin, cos) = turned.sin_cos();
        self.from + (self.along * sin + self.inward * (1.0 - cos)) * self.radius_mm
    }

    /// The offset at the end of `length_mm`, and what the offset up to there does not exceed, mm.
    ///
    /// Up to half a turn an arc lies within its sagitta of its chord, which is at most L²/8R, and on the chord
    /// the offset is largest at an end. Seen along the axis distances only shrink. Derived here.
    pub fn end_and_bound(&self, length_mm: f64) -> (Vector2<f64>, f64) {
        let turned = length_mm / self.radius_mm;
        let end = self.at(turned);
        let bound_mm = self.from.norm().max(end.norm()) + length_mm * turned / 8.0;
        (end, if turned <= PI { bound_mm } else { f64::INFINITY })
    }

    /// Where within `length_mm` the offset is largest, and that offset.
    pub fn furthest(&self, length_mm: f64) -> (f64, Vector2<f64>) {
        let mut best = (0.0, self.from);
        self.stops(length_mm / self.radius_mm, |turned| {
            let offset = self.at(turned);
            if offset.norm_squared() > best.1.norm_squared() {
                best = (turned * self.radius_mm, offset);
            }
            None::<()>
        });
        best
    }

    /// Where within `length_mm` the offset first exceeds `limit_mm`.
    pub fn first_beyond(&self, limit_mm: f64, length_mm: f64) -> Option<f64> {
        // An arc that cannot stray so far needs no closer look.
        let from_mm = self.from.norm();
        if from_mm > limit_mm {
            return Some(0.0);
        }
        if from_mm + length_mm <= limit_mm || self.end_and_bound(length_mm).1 <= limit_mm {
            return None;
        }
        self.crossing(limit_mm, length_mm)
    }

    /// The same, looked at closely. The offset is monotone between stops, so the crossing is bracketed.
    pub fn crossing(&self, limit_mm: f64, length_mm: f64) -> Option<f64> {
        if self.from.norm() > limit_mm {
            return Some(0.0);
        }
        let mut before = 0.0;
        self.stops(length_mm / self.radius_mm, |turned| {
            if self.at(turned).norm() > limit_mm {
                let crossing = bisect(before, turned, |x| self.at(x).norm() > limit_mm);
                return Some(crossing * self.radius_mm);
            }
            before = turned;
            None
        })
    }

    /// Visits in order the turns at which the offset stops growing or shrinking, and the end.
    fn stops<T>(&self, whole: f64, mut visit: impl FnMut(f64) -> Option<T>) -> Option<T> {
        let quarters = (whole / FRAC_PI_2).ceil().max(1.0);
        let half_width = whole / quarters / 2.0;
        let mut middle = half_width;
        for _ in 0..quarters as usize {
            let (stops, count) = self.stops_about(middle, half_width);
            for turned in &stops[..count] {
                if let Some(found) = visit(*turned) {
                    return Some(found);
                }
            }
            middle += 2.0 * half_width;
        }
        None
    }

    /// The stops within `half_width` (at most an eighth of a turn) of `middle`, its end last.
    ///
    /// Half the derivative of the squared offset is a trigonometric polynomial of degree two; with
    /// t = tan(ψ/2) it becomes a quartic (derived here).
    fn stops_about(&self, middle: f64, half_width: f64) -> ([f64; STOPS], usize) {
        let centre = self.from + self.inward * self.radius_mm;
        let (p, q) = (centre.dot(&self.along), centre.dot(&self.inward));
        let half_m = self.radius_mm * (self.along.norm_squared() - self.inward.norm_squared()) / 2.0;
        let n = self.radius_mm * self.along.dot(&self.inward);
        let (sin, cos) = middle.sin_cos();
        let (sin2, cos2) = (2.0 * sin * cos, cos * cos - sin * sin);
        let (p, q) = (p * cos + q * sin, q * cos - p * sin);
        let (s, t) = (half_m * cos2 + n * sin2, half_m * sin2 - n * cos2);
        let quartic = [p + t, 2.0 * q + 4.0 * s, -6.0 * t, 2.0 * q - 4.0 * s, t - p];
        let edge = (half_width / 2.0).tan();
        let (roots, count) = roots_within(&quartic, -edge, edge);
        let mut stops = [0.0; STOPS];
        for (stop, root) in stops.iter_mut().zip(&roots[..count]) {
            *stop = middle + 2.0 * root.atan();
        }
        stops[count] = middle + half_width;
        (stops, count + 1)
    }
}

/// Every sign change of a quartic (coefficients from the constant up) in an interval, in order.
///
/// Between neighbouring roots of its derivative a polynomial is monotone, so each sign change is
/// bracketed; the derivatives are solved the same way, from the linear one up.
fn roots_within(quartic: &[f64; 5], low: f64, high: f64) -> ([f64; 4], usize) {
    let mut roots = [0.0; 4];
    let mut count = 0;
    for degree in 1..=4 {
        let order = 4 - degree;
        let value = |x: f64| {
            (order..=4).rev().fold(0.0, |sum, power| {
                let factor: usize = (power - order + 1..=power).product();
                sum * x + quartic[power] * factor as f64
            })
        };
        let mut next = [0.0; 4];
        let mut found = 0;
        let mut left = low;
        for right in roots[..count].iter().copied().chain([high]) {
            let rising = value(right) > 0.0;
            if found < degree && (value(left) > 0.0) != rising {
                next[found] = bisect(left, right, |x| (value(x) > 0.0) == rising);
                found += 1;
            }
            left = right;
        }
        (roots, count) = (next, found);
    }
    (roots, count)
}

/// Halvings after which an interval no wider than a turn is narrower than the spacing of `f64` numbers
/// about a tenth of a microradian.
const HALVINGS: usize = 80;

/// The point at which `is_past` turns from false to true between `low` and `high`, seen from below.
fn bisect(mut low: f64, mut high: f64, is_past: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..HALVINGS {
        let middle = low + (high - low) / 2.0;
        if middle <= low || middle >= high {
            break;
        }
        if is_past(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    low
}
