//! Obstacles that are typed in: boxes, cylinders and planes, with their distance in closed form, below zero inside.

use crate::{Point3, Vector3};

/// A convex body about the origin of its own frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Convex {
    /// A box by half its edges, mm.
    Cuboid(Vector3<f64>),
    /// A cylinder along x by its radius and half its length, mm.
    Cylinder { radius_mm: f64, half_mm: f64 },
    /// Everything below z = 0.
    Below,
}

impl Convex {
    /// The distance of a point from the surface, mm, below zero inside. It is 1-Lipschitz and, of a convex body, convex.
    pub fn distance_mm(&self, point: &Point3<f64>) -> f64 {
        match self {
            Self::Cuboid(half) => {
                let beyond = point.coords.abs() - half;
                beyond.sup(&Vector3::zeros()).norm() + beyond.max().min(0.0)
            }
            Self::Cylinder { radius_mm, half_mm } => {
                let out = point.y.hypot(point.z) - radius_mm;
                let past = point.x.abs() - half_mm;
                out.max(0.0).hypot(past.max(0.0)) + out.max(past).min(0.0)
            }
            Self::Below => point.z,
        }
    }

    /// The place of the surface nearest to a point, mm.
    pub fn surface(&self, point: &Point3<f64>) -> Point3<f64> {
        match self {
            Self::Cuboid(half) => {
                let mut on = Point3::from(point.coords.sup(&-half).inf(half));
                if on == *point {
                    let depth = |axis: &usize| half[*axis] - point[*axis].abs();
                    let axis = (0..3).min_by(|a, b| depth(a).total_cmp(&depth(b))).unwrap_or(0);
                    on[axis] = half[axis].copysign(point[axis]);
                }
                on
            }
            Self::Cylinder { radius_mm, half_mm } => {
                let out = point.y.hypot(point.z);
                let (past, beyond) = (point.x.abs() - half_mm, out - radius_mm);
                let rim = if beyond > 0.0 || (past <= 0.0 && beyond >= past) { *radius_mm } else { out };
                let side = if out > 0.0 { (point.y / out, point.z / out) } else { (1.0, 0.0) };
                let along =
                    if past > 0.0 || (beyond <= 0.0 && past > beyond) { half_mm.copysign(point.x) } else { point.x };
                Point3::new(along, rim * side.0, rim * side.1)
            }
            Self::Below => Point3::new(point.x, point.y, 0.0),
        }
    }

    /// The share (0 to 1) along a segment at which it is nearest or deepest, and a distance there that no place of the
    /// segment goes below, mm. Along a line the distance is convex, so a search between two ends that always closes on the smaller
    /// values cannot miss it; what is left open is taken off.
    pub fn along(&self, p: &Point3<f64>, q: &Point3<f64>) -> (f64, f64) {
        if matches!(self, Self::Below) || p == q {
            let (low, high) = (self.distance_mm(p), self.distance_mm(q));
            return if low <= high { (0.0, low) } else { (1.0, high) };
        }
        const GOLDEN: f64 = 0.618_033_988_749_894_9;
        // After so many steps the open stretch is 3e-13 of the segment.
        const STEPS: usize = 60;
        let along = q - p;
        let at = |share: f64| self.distance_mm(&(p + along * share));
        let (mut low, mut high) = (0.0, 1.0);
        let (mut one, mut two) = (high - GOLDEN, low + GOLDEN);
        let (mut at_one, mut at_two) = (at(one), at(two));
        for _ in 0..STEPS {
            if at_one <= at_two {
                (high, two, at_two) = (two, one, at_one);
                one = high - GOLDEN * (high - low);
                at_one = at(one);
            } else {
                (low, one, at_one) = (one, two, at_two);
                two = low + GOLDEN * (high - low);
                at_two = at(two);
            }
        }
        let middle = f64::midpoint(low, high);
        let ends = [(0.0, at(0.0)), (1.0, at(1.0)), (middle, at(middle))];
        let best = ends.into_iter().fold(ends[2], |best, next| if next.1 < best.1 { next } else { best });
        (best.0, best.1 - (high - low) * along.norm())
    }
}
