//! The smallest distance between two line segments, in closed form.

use crate::Point3;

/// The nearest places of segments `p`–`q` and `u`–`v`: their shares (0 to 1) along each, and the squared
/// distance, mm². Parallel segments and segments of no length are no exception.
pub(crate) fn nearest((p, q): (&Point3<f64>, &Point3<f64>), (u, v): (&Point3<f64>, &Point3<f64>)) -> (f64, f64, f64) {
    let (first, second, between) = (q - p, v - u, p - u);
    let (a, e) = (first.norm_squared(), second.norm_squared());
    let (b, c, f) = (first.dot(&second), first.dot(&between), second.dot(&between));
    let share = |above: f64, below: f64| if below > 0.0 { (above / below).clamp(0.0, 1.0) } else { 0.0 };
    // The distance is convex in both shares, so minimising one after the other from the unconstrained
    // optimum, clamped, ends at the minimum unless the segments are nearly parallel; then the four ends
    // are as good, and are tried as well.
    let denominator = a * e - b * b;
    let s = if denominator > 0.0 { ((b * f - c * e) / denominator).clamp(0.0, 1.0) } else { 0.0 };
    let t = share(b * s + f, e);
    let s = share(b * t - c, a);
    let at = |s: f64, t: f64| (s, t, (between + first * s - second * t).norm_squared());
    let mut best = at(s, t);
    let mut take = |candidate: (f64, f64, f64)| {
        if candidate.2 < best.2 {
            best = candidate;
        }
    };
    if denominator <= 1e-8 * a * e {
        take(at(0.0, share(f, e)));
        take(at(1.0, share(b + f, e)));
        take(at(share(-c, a), 0.0));
        take(at(share(b - c, a), 1.0));
    }
    best
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// No pair of sampled places is nearer, and the shares belong to the distance; parallel and
        /// shrunken segments included.
        #[test]
        fn no_two_places_are_nearer(
            p in proptest::array::uniform3(-10.0..10.0f64), q in proptest::array::uniform3(-10.0..10.0f64),
            u in proptest::array::uniform3(-10.0..10.0f64), v in proptest::array::uniform3(-10.0..10.0f64),
            odd in 0..5,
        ) {
            let (p, q, u, mut v) = (Point3::from(p), Point3::from(q), Point3::from(u), Point3::from(v));
            match odd {
                0 => v = u + (q - p) * 0.7,
                1 => v = u,
                2 => v = u - (q - p) * (1.0 + 1e-12),
                _ => {}
            }
            let (s, t, squared) = nearest((&p, &q), (&u, &v));
            let at = |s: f64, t: f64| ((p + (q - p) * s) - (u + (v - u) * t)).norm_squared();
            prop_assert!((0.0..=1.0).contains(&s) && (0.0..=1.0).contains(&t));
            prop_assert!((at(s, t) - squared).abs() < 1e-9);
            for i in 0..=40 {
                for j in 0..=40 {
                    prop_assert!(squared <= at(f64::from(i) / 40.0, f64::from(j) / 40.0) + 1e-9);
                }
            }
        }
    }
}
