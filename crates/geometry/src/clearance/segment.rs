//! The smallest distance between two line segments, in closed form.

use crate::Point3;

/// The nearest places of segments `p`–`q` and `u`–`v`: their shares (0 to 1) along each, and the squared
/// distance, mm². Parallel segments and segments of no length are no exception.
pub(super) fn nearest((p, q): (&Point3<f64>, &Point3<f64>), (u, v): (&Point3<f64>, &Point3<f64>)) -> (f64, f64, f64) {
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
