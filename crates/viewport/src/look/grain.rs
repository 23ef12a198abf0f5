//! How coarse the patterns of the marks are. A pattern of one size on the tube is too fine to be seen from where a whole
//! pipe is looked at, so it doubles as the eye goes away, and is never finer than the eye can tell apart.

use bevy::math::Vec2;

/// How often the mesh of a tube counts the pattern round it.
pub const REPEATS: f64 = 8.0;
/// A repeat is this long on the screen at least, logical pixels: a stripe and its ground then have six each.
const FINEST_PIXELS: f64 = 12.0;
/// Round the tube a pattern doubles this often at most: of the eight repeats that the mesh counts two are left, one
/// to a side.
const MOST_ROUND: u32 = 2;
/// Along the tube it doubles this often at most.
const MOST_ALONG: u32 = 6;

/// How long a repeat is along a tube, mm, as its mesh counts them: as long as it is wide.
pub fn repeat_mm(od_mm: f64) -> f64 {
    std::f64::consts::PI * od_mm / REPEATS
}

/// How long a part of a tube is that can be left out, mm, without a seam in any pattern at any grain. Every other row
/// of dots is set off, so it is two repeats of the coarsest.
pub fn seamless_mm(od_mm: f64) -> f64 {
    2.0 * f64::from(1_u32 << MOST_ALONG) * repeat_mm(od_mm)
}

/// How often the pattern has doubled.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Grain(pub u32);

impl Grain {
    /// The grain at which a repeat, of so many logical pixels as the mesh counts it, can be seen.
    pub fn for_repeat(pixels: f64) -> Self {
        let short = (FINEST_PIXELS / pixels.max(1e-6)).log2().ceil();
        Self(short.clamp(0.0, f64::from(MOST_ALONG)) as u32)
    }

    /// What of a repeat of the mesh is one of the pattern, round the tube and along it.
    pub fn shares(self) -> Vec2 {
        let halved = |times: u32| 0.5_f32.powi(times as i32);
        Vec2::new(halved(self.0.min(MOST_ROUND)), halved(self.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pattern_is_never_finer_than_can_be_seen_and_never_twice_as_coarse_as_it_must() {
        for tenths in 4..400 {
            let pixels = f64::from(tenths) / 2.0;
            let seen = pixels / f64::from(Grain::for_repeat(pixels).shares().y);
            assert!(seen >= FINEST_PIXELS, "{pixels}: {seen}");
            assert!(seen < 2.0 * FINEST_PIXELS || seen == pixels, "{pixels}: {seen}");
        }
    }

    #[test]
    fn round_the_tube_two_repeats_are_left() {
        let round = |grain: u32| 8.0 * Grain(grain).shares().x;
        assert_eq!([0, 1, 2, 3, 6].map(round), [8.0, 4.0, 2.0, 2.0, 2.0]);
    }
}
