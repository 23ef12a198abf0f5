//! The smallest distance between a line segment and a triangle, in closed form.

use crate::Point3;
use crate::clearance::nearest;

/// Where a segment comes nearest to something.
#[derive(Clone, Copy, Debug)]
pub(super) struct Near {
    /// The share (0 to 1) along the segment.
    pub share: f64,
    /// The squared distance, mm².
    pub squared: f64,
    /// The place on the other one, mm.
    pub on: Point3<f64>,
}

/// A triangle whose height is less than this share of its longest side is as good as its sides: its plane is mostly
/// rounding, and leaving its face out errs by that height, a micrometre on a side of ten metres.
const FLAT: f64 = 1e-10;

/// The nearest places of a segment and a triangle; both may have shrunk to a point or a line. The distance is smallest
/// at a side of the triangle, at an end of the segment that lies over the face, or is nothing where the segment goes through.
pub(super) fn nearest_to_triangle((p, q): (&Point3<f64>, &Point3<f64>), corners: &[Point3<f64>; 3]) -> Near {
    let [a, b, c] = corners;
    let mut best = Near { share: 0.0, squared: f64::INFINITY, on: *a };
    let mut longest_squared: f64 = 0.0;
    for (u, v) in [(a, b), (b, c), (c, a)] {
        let (share, along, squared) = nearest((p, q), (u, v));
        if squared < best.squared {
            best = Near { share, squared, on: u + (v - u) * along };
        }
        longest_squared = longest_squared.max((v - u).norm_squared());
    }
    let normal = (b - a).cross(&(c - a));
    let normal_squared = normal.norm_squared();
    if normal_squared <= FLAT * FLAT * longest_squared * longest_squared {
        return best;
    }
    let covers = |foot: &Point3<f64>| {
        [(a, b), (b, c), (c, a)].iter().all(|(u, v)| (*v - *u).cross(&(foot - *u)).dot(&normal) >= 0.0)
    };
    let (high_p, high_q) = ((p - a).dot(&normal), (q - a).dot(&normal));
    if high_p * high_q <= 0.0 && high_p != high_q {
        let share = (high_p / (high_p - high_q)).clamp(0.0, 1.0);
        let at = p + (q - p) * share;
        if covers(&at) {
            return Near { share, squared: 0.0, on: at };
        }
    }
    for (share, end, high) in [(0.0, p, high_p), (1.0, q, high_q)] {
        let squared = high * high / normal_squared;
        if squared < best.squared {
            let foot = end - normal * (high / normal_squared);
            if covers(&foot) {
                best = Near { share, squared, on: foot };
            }
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn near(p: [f64; 3], q: [f64; 3]) -> Near {
        let corners = [Point3::new(0.0, 0.0, 0.0), Point3::new(10.0, 0.0, 0.0), Point3::new(0.0, 10.0, 0.0)];
        nearest_to_triangle((&Point3::from(p), &Point3::from(q)), &corners)
    }

    #[test]
    fn over_the_face_at_a_side_at_a_corner_and_through() {
        // Over the face: 4; beside the side x = 0 by 3 and 4 above: 5; beyond the corner by 3, 4 and 12: 13.
        assert_eq!(near([2.0, 2.0, 4.0], [2.0, 2.0, 9.0]).squared, 16.0);
        assert_eq!(near([-3.0, 2.0, 4.0], [-9.0, 2.0, 4.0]).squared, 25.0);
        assert_eq!(near([13.0, -4.0, 12.0], [20.0, -9.0, 20.0]).squared, 169.0);
        let through = near([2.0, 2.0, -1.0], [2.0, 2.0, 3.0]);
        assert_eq!((through.share, through.squared, through.on), (0.25, 0.0, Point3::new(2.0, 2.0, 0.0)));
        // Past the slanting side x + y = 10 it misses by the distance to that side.
        assert!((near([6.0, 6.0, -1.0], [6.0, 6.0, 3.0]).squared - 2.0).abs() < 1e-12);
    }

    proptest! {
        /// No sampled pair of places is nearer, and the places told belong to the distance; flat triangles included.
        #[test]
        fn no_two_places_are_nearer(
            p in proptest::array::uniform3(-10.0..10.0f64), q in proptest::array::uniform3(-10.0..10.0f64),
            corners in proptest::array::uniform3(proptest::array::uniform3(-10.0..10.0f64)), odd in 0..5,
        ) {
            let (p, q) = (Point3::from(p), Point3::from(q));
            let mut corners = corners.map(Point3::from);
            match odd {
                0 => corners[2] = corners[0] + (corners[1] - corners[0]) * 0.3,
                1 => corners[2] = corners[1],
                _ => {}
            }
            let near = nearest_to_triangle((&p, &q), &corners);
            let at = p + (q - p) * near.share;
            prop_assert!(((near.on - at).norm_squared() - near.squared).abs() < 1e-7);
            for i in 0..=16 {
                let here = p + (q - p) * (f64::from(i) / 16.0);
                for j in 0..=16 {
                    for k in 0..=16 - j {
                        let (u, v) = (f64::from(j) / 16.0, f64::from(k) / 16.0);
                        let there = corners[0] + (corners[1] - corners[0]) * u + (corners[2] - corners[0]) * v;
                        prop_assert!(near.squared <= (there - here).norm_squared() + 1e-9);
                    }
                }
            }
        }
    }
}
