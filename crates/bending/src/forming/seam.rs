//! Where the weld seam lies at every bend, and the start position that keeps it out of the stretch.
//!
//! A tube does not twist, so the seam's clock position at bend k is its position at bend 1 plus the
//! rotations since. Clock 0° is the outside of bend 1, positive in the rotation's positive sense.
//! The fibre at clock position c of a bend is strained by s cos c, with s = OD/2R (W08): nothing at the
//! side, ±90°, where the trade puts the seam (V04, common practice; V01 asks the same of field bends).

use std::f64::consts::PI;

use elbowroom_geometry::Angle;

/// Strains this near are the same: rounding of a part of thousands of bends, far below what any metal feels.
const SAME_STRAIN: f64 = 1e-11;

/// Bends whose seam lies this near are the same to it, radians: what is left of rounding where rotations come back
/// to where they were. No machine turns a tube by so little.
const SAME_CLOCK_RAD: f64 = 1e-9;

/// So many equally good positions are looked at, to keep a part of thousands of even bends quick.
const MOST_EQUALS: usize = 16;

/// A bend as the seam sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamBend {
    /// Rotation before the bend; that of the first bend counts for nothing.
    pub rotation: Angle,
    /// Stretch of its outer fibre, as a share.
    pub stretch: f64,
}

/// A seam laid along the tube.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamLay {
    /// Clock position at bend 1, in (-180°, 180°].
    pub start: Angle,
    /// Clock position at each bend, in (-180°, 180°].
    pub at_bends: Vec<Angle>,
    /// The largest strain of the seam, stretch or gathering, as a share.
    pub worst: f64,
    /// The bend at which it is worst, counted from 0; `None` without bends.
    pub worst_bend: Option<usize>,
}

impl SeamLay {
    /// The seam started at clock position `start`.
    pub fn from_start(start: Angle, bends: &[SeamBend]) -> Self {
        let mut at = start;
        let mut at_bends = Vec::with_capacity(bends.len());
        let (mut worst, mut worst_bend) = (0.0, None);
        for (index, bend) in bends.iter().enumerate() {
            if index > 0 {
                at += bend.rotation;
            }
            let strain = (bend.stretch * at.radians().cos()).abs();
            if worst_bend.is_none() || strain > worst {
                (worst, worst_bend) = (strain, Some(index));
            }
            at_bends.push(at.within_half_turn());
        }
        Self { start: start.within_half_turn(), at_bends, worst, worst_bend }
    }

    /// The start position whose worst strain is the smallest there is. Of those that are equally good (each
    /// has an opposite one that is) the one whose seam is stretched least, as gathered metal does not
    /// crack; else the first in [0°, 180°).
    ///
    /// Exact: with v_k the bend's stretch as a vector at its clock position, the worst strain at start c
    /// is the largest |u(c)·v_k|, which is half the width of the hull of all ±v_k in direction u. The
    /// width of a convex polygon is least square to one of its edges (derived here), so only as many
    /// positions as the hull has edges need a look. Bends at the same clock position count as the most stretched of
    /// them, as edges between points that only rounding keeps apart have no direction. Grows as n log n.
    pub fn best(bends: &[SeamBend]) -> Self {
        let hull = convex_hull(with_opposites(&clock_positions(bends)));
        let edges = || hull.iter().zip(hull.iter().cycle().skip(1));
        // The hull is symmetric about the origin, so its half width square to an edge is the distance of
        // that edge from the origin.
        let half_width = |(from, to): (&[f64; 2], &[f64; 2])| {
            let length = (to[0] - from[0]).hypot(to[1] - from[1]);
            // An edge of no length has no direction.
            if length == 0.0 { f64::INFINITY } else { (from[0] * to[1] - from[1] * to[0]).abs() / length }
        };
        let half_widths: Vec<f64> = edges().map(half_width).collect();
        let narrowest = half_widths.iter().copied().fold(f64::INFINITY, f64::min);
        let is_narrow = |half_width: f64| half_width.is_finite() && half_width <= narrowest + SAME_STRAIN;
        let narrow = edges().zip(&half_widths).filter(|(_, half_width)| is_narrow(**half_width));
        let square_to = |((from, to), _): ((&[f64; 2], &[f64; 2]), _)| (to[0] - from[0]).atan2(from[1] - to[1]);
        let mut starts: Vec<f64> = narrow.map(square_to).map(|clock| clock.rem_euclid(PI)).collect();
        starts.sort_by(f64::total_cmp);
        starts.truncate(MOST_EQUALS);
        let stretches = stretches(bends);
        let mut best: Option<(f64, f64)> = None;
        for start in starts {
            let [stretched, gathered] = most_strained(&stretches, start);
            // Put to the other side of the tube, the seam is stretched where it was gathered.
            for (stretched, start) in [(stretched, start), (gathered, start + PI)] {
                if best.is_none_or(|(least, _)| stretched < least - SAME_STRAIN) {
                    best = Some((stretched, start));
                }
            }
        }
        let start = best.map_or(Angle::from_degrees(90.0), |(_, start)| Angle::from_radians(start));
        Self::from_start(start, bends)
    }

    /// How far the seam lies from the outside of a bend, 0° to 180°; 90° is the side.
    pub fn from_outside(&self, bend: usize) -> Option<Angle> {
        self.at_bends.get(bend).map(|at| at.abs())
    }
}

/// The stretch of every bend as a vector at its clock position.
fn stretches(bends: &[SeamBend]) -> Vec<[f64; 2]> {
    let mut turned = Angle::ZERO;
    let stretch = |(index, bend): (usize, &SeamBend)| {
        if index > 0 {
            turned += bend.rotation;
        }
        // s cos(c + turned) = (cos c, sin c) · s (cos turned, -sin turned)
        let (sin, cos) = turned.radians().sin_cos();
        [bend.stretch * cos, -bend.stretch * sin]
    };
    bends.iter().enumerate().map(stretch).collect()
}

/// By how much a seam that starts at a clock position, radians, is stretched where it is most, and gathered where it is
/// most, as shares; below 0 where it is nowhere.
fn most_strained(stretches: &[[f64; 2]], start_rad: f64) -> [f64; 2] {
    let (sin, cos) = start_rad.sin_cos();
    let strains = stretches.iter().map(|[x, y]| x * cos + y * sin);
    strains.fold([f64::NEG_INFINITY; 2], |[stretched, gathered], strain| [stretched.max(strain), gathered.max(-strain)])
}

/// The stretch of every bend as a vector at its clock position, each in the upper half plane, which is as good since
/// gathering counts like stretch; of those at one position the longest.
fn clock_positions(bends: &[SeamBend]) -> Vec<[f64; 2]> {
    let mut turned = Angle::ZERO;
    let mut stretches = Vec::with_capacity(bends.len());
    for (index, bend) in bends.iter().enumerate() {
        if index > 0 {
            turned = (turned + bend.rotation).within_half_turn();
        }
        if bend.stretch > 0.0 {
            // s cos(c + turned) = (cos c, sin c) · s (cos turned, -sin turned)
            let mut clock = -turned.radians();
            if clock < 0.0 {
                clock += PI;
            }
            if clock > PI - SAME_CLOCK_RAD {
                clock -= PI;
            }
            stretches.push((clock, bend.stretch));
        }
    }
    stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut merged: Vec<(f64, f64)> = Vec::with_capacity(stretches.len());
    for (clock, stretch) in stretches {
        match merged.last_mut() {
            Some((first, longest)) if clock - *first <= SAME_CLOCK_RAD => *longest = longest.max(stretch),
            _ => merged.push((clock, stretch)),
        }
    }
    merged.into_iter().map(|(clock, stretch)| [stretch * clock.cos(), stretch * clock.sin()]).collect()
}

/// Points and their opposites.
fn with_opposites(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut both = Vec::with_capacity(2 * points.len());
    both.extend(points.iter().flat_map(|&[x, y]| [[x, y], [-x, -y]]));
    both
}

/// Corners of the convex hull, counter-clockwise, by sorting and two sweeps. A hull of no area gives its
/// two ends.
fn convex_hull(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let sweep = |points: &mut dyn Iterator<Item = &[f64; 2]>| {
        let mut chain: Vec<[f64; 2]> = Vec::with_capacity(points.size_hint().0);
        for point in points {
            while let [.., a, b] = chain[..] {
                if (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(*point);
        }
        chain.pop();
        chain
    };
    let mut hull = sweep(&mut points.iter());
    hull.extend(sweep(&mut points.iter().rev()));
    hull
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use approx::assert_abs_diff_eq;
    use proptest::prelude::*;

    fn bend(rotation: f64, stretch: f64) -> SeamBend {
        SeamBend { rotation: Angle::from_degrees(rotation), stretch }
    }

    #[test]
    fn one_plane_puts_the_seam_at_the_side() {
        // Common practice: near the neutral axis, 90° from the bend plane; 16 NYCRR 255.313(b) asks for
        // "as near as practicable to the neutral axis" of field bends.
        for bends in [vec![bend(0.0, 0.3)], vec![bend(0.0, 0.3), bend(180.0, 0.25), bend(0.0, 0.3)]] {
            let lay = SeamLay::best(&bends);
            assert_abs_diff_eq!(lay.start.degrees(), 90.0, epsilon = 1e-9);
            assert_abs_diff_eq!(lay.worst, 0.0, epsilon = 1e-15);
        }
    }

    #[test]
    fn two_square_planes_share_the_strain() {
        let lay = SeamLay::best(&[bend(0.0, 0.3), bend(90.0, 0.3)]);
        assert_abs_diff_eq!(lay.worst, 0.3 * std::f64::consts::FRAC_1_SQRT_2, epsilon = 1e-12);
        // The weaker bend carries more of the angle: tan c = s1/s2 where the strains are equal.
        let lay = SeamLay::best(&[bend(0.0, 0.3), bend(90.0, 0.1)]);
        assert_abs_diff_eq!(lay.start.radians().tan().abs(), 3.0, epsilon = 1e-9);
    }

    #[test]
    fn the_seam_turns_with_the_tube() {
        let lay =
            SeamLay::from_start(Angle::from_degrees(100.0), &[bend(55.0, 0.3), bend(90.0, 0.3), bend(-30.0, 0.3)]);
        let degrees: Vec<f64> = lay.at_bends.iter().map(|at| at.degrees()).collect();
        for (at, expected) in degrees.iter().zip([100.0, -170.0, 160.0]) {
            assert_abs_diff_eq!(*at, expected, epsilon = 1e-9);
        }
    }

    #[test]
    fn without_bends_there_is_nothing_to_strain() {
        let lay = SeamLay::best(&[]);
        assert_eq!((lay.worst, lay.worst_bend, lay.at_bends.len()), (0.0, None, 0));
    }

    /// The smallest worst strain there is, the slow way: it lies where one bend strains least or where two strain alike.
    fn by_every_crossing(bends: &[SeamBend]) -> f64 {
        let mut turned = 0.0_f64;
        let vectors: Vec<(f64, f64)> = bends
            .iter()
            .enumerate()
            .map(|(index, bend)| {
                turned += if index > 0 { bend.rotation.radians() } else { 0.0 };
                (turned.cos() * bend.stretch, -turned.sin() * bend.stretch)
            })
            .collect();
        let mut starts: Vec<f64> = vectors.iter().map(|(x, y)| x.atan2(-y)).collect();
        for (index, (x, y)) in vectors.iter().enumerate() {
            for (other_x, other_y) in &vectors[..index] {
                // |u·v| = |u·w| where u is square to v - w or to v + w.
                starts.push((x - other_x).atan2(other_y - y));
                starts.push((x + other_x).atan2(-other_y - y));
            }
        }
        let worst = |start: f64| {
            let (sin, cos) = start.sin_cos();
            vectors.iter().map(|(x, y)| (x * cos + y * sin).abs()).fold(0.0, f64::max)
        };
        starts.into_iter().map(worst).fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn rotations_that_come_back_are_strained_least() {
        // A start of 45.0° was said to be the best of such bends, at 24.1 %; 66.87° gives 20.0 %.
        for step in [15.0, 30.0, 45.0, 90.0] {
            for pattern in 0..4096_u32 {
                let digit = |place: u32| (pattern >> (2 * place)) & 3;
                let bends: Vec<SeamBend> = (0..6)
                    .map(|place| {
                        let rotation = [step, -step, 2.0 * step, 180.0 - step][digit(place) as usize];
                        bend(rotation, [1.0 / 3.0, 0.25, 1.0 / 6.0][(digit(5 - place) % 3) as usize])
                    })
                    .collect();
                let (best, exact) = (SeamLay::best(&bends).worst, by_every_crossing(&bends));
                assert!((best - exact).abs() < 1e-9, "{best} for {exact}: {bends:?}");
            }
        }
    }

    #[test]
    fn thousands_of_bends_that_come_back_are_strained_least_too() {
        let turns = [90.0, 45.0, -30.0, 180.0, 15.0, -90.0, 120.0];
        let bends: Vec<SeamBend> =
            (0..2000).map(|index| bend(turns[index % 7], if index % 3 == 0 { 0.25 } else { 1.0 / 3.0 })).collect();
        let (best, exact) = (SeamLay::best(&bends).worst, by_every_crossing(&bends[..84]));
        // Every 84 bends the same comes again: after 7 rotations the tube is turned by 330°, after 84 by whole turns.
        assert!((best - exact).abs() < 1e-9, "{best} for {exact}");
    }

    fn a_rotation() -> impl Strategy<Value = f64> {
        let of = |step: f64, most: i32| (-most..=most).prop_map(move |times| f64::from(times) * step);
        prop_oneof![of(15.0, 12), of(30.0, 6), of(45.0, 4), of(90.0, 2), Just(22.5), -180.0..180.0f64]
    }

    fn a_stretch() -> impl Strategy<Value = f64> {
        prop_oneof![Just(0.0), Just(1.0 / 3.0), Just(0.25), Just(1.0 / 6.0), 0.05..0.5f64]
    }

    proptest! {

        #![proptest_config(ProptestConfig::with_cases(1000))]
        #[test]
        fn the_best_start_is_not_beaten_by_brute_force(
            bends in prop::collection::vec((a_rotation(), a_stretch()), 1..25)
        ) {
            let bends: Vec<SeamBend> = bends.into_iter().map(|(rotation, stretch)| bend(rotation, stretch)).collect();
            let best = SeamLay::best(&bends);
            let tried = (0..3600)
                .map(|step| SeamLay::from_start(Angle::from_degrees(f64::from(step) * 0.05), &bends).worst)
                .fold(f64::INFINITY, f64::min);
            prop_assert!(best.worst <= tried + 1e-10, "best {} beaten by {tried}", best.worst);
            prop_assert!((best.worst - by_every_crossing(&bends)).abs() < 1e-9);
            // And it is no better than the grid allows: the strain changes by at most its slope, 0.5 a radian.
            prop_assert!(tried - best.worst <= 0.5 * 0.05f64.to_radians());
        }
    }

    proptest! {
        #[test]
        fn of_both_sides_of_the_tube_the_one_that_is_stretched_less(
            bends in prop::collection::vec((prop_oneof![Just(45.0), Just(90.0), Just(180.0), -180.0..180.0f64], 0.1..0.4f64), 2..9)
        ) {
            let bends: Vec<SeamBend> = bends.into_iter().map(|(rotation, stretch)| bend(rotation, stretch)).collect();
            let stretched = |start: Angle| {
                let lay = SeamLay::from_start(start, &bends);
                let strains = lay.at_bends.iter().zip(&bends).map(|(at, bend)| bend.stretch * at.radians().cos());
                strains.fold(f64::NEG_INFINITY, f64::max)
            };
            let best = SeamLay::best(&bends).start;
            let [here, opposite] = [stretched(best), stretched(best + Angle::HALF_TURN)];
            prop_assert!(here <= opposite + 1e-9, "{here} is more than {opposite}");
        }
    }
}
