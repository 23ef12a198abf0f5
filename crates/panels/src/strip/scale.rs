//! From millimetres along the tube to points on the screen: fit, zoom and pan.

use egui::Rangef;

/// How much of the tube the strip shows. Kept between frames.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct View {
    /// What was zoomed to; `None` shows the whole blank whatever its length.
    pub zoomed: Option<Scale>,
}

/// A scale: where the left edge lies on the tube, and how many points a millimetre takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Length along the tube at the left edge, mm.
    pub left_mm: f64,
    /// Points of the screen for one mm.
    pub points_per_mm: f64,
}

impl Scale {
    /// The finest scale, points for one mm.
    pub const FINEST: f64 = 24.0;
    /// The least that is ever shown, mm, so that a part without length has a scale too.
    const LEAST_MM: f64 = 1.0;
    /// Room left free beside a fitted blank, points.
    const MARGIN: f64 = 14.0;

    /// The scale that shows `extent_mm` in `width` points.
    pub fn fitting(extent_mm: (f64, f64), width: f64) -> Self {
        let length_mm = (extent_mm.1 - extent_mm.0).max(Self::LEAST_MM);
        let points_per_mm = ((width - 2.0 * Self::MARGIN).max(1.0) / length_mm).min(Self::FINEST);
        let middle_mm = (extent_mm.0 + extent_mm.1) / 2.0;
        Self { left_mm: middle_mm - width / points_per_mm / 2.0, points_per_mm }
    }

    /// The place of `mm` on the screen, where the strip spans `x`.
    pub fn x(&self, mm: f64, x: Rangef) -> f32 {
        // Far outside the window the exact place no longer matters, but it must stay a sane number.
        let points = ((mm - self.left_mm) * self.points_per_mm).clamp(-1e5, 1e5);
        x.min + points as f32
    }

    /// The length along the tube at a place of the screen, mm.
    pub fn mm(&self, at: f32, x: Rangef) -> f64 {
        self.left_mm + f64::from(at - x.min) / self.points_per_mm
    }

    /// What the strip shows, mm.
    pub fn shown_mm(&self, x: Rangef) -> (f64, f64) {
        (self.mm(x.min, x), self.mm(x.max, x))
    }

    /// Zoomed by a factor about a place of the screen, which stays where it is.
    pub fn zoomed(&self, factor: f64, about: f32, x: Rangef, coarsest: f64) -> Self {
        let about_mm = self.mm(about, x);
        let points_per_mm = (self.points_per_mm * factor).clamp(coarsest.min(Self::FINEST), Self::FINEST);
        Self { left_mm: about_mm - f64::from(about - x.min) / points_per_mm, points_per_mm }
    }

    /// Moved by so many points, never so far that nothing of the blank is left in sight.
    pub fn panned(&self, points: f32, extent_mm: (f64, f64), x: Rangef) -> Self {
        let shown_mm = f64::from(x.span()) / self.points_per_mm;
        let left_mm = self.left_mm - f64::from(points) / self.points_per_mm;
        let (low, high) = (extent_mm.0 - 0.5 * shown_mm, extent_mm.1 - 0.5 * shown_mm);
        Self { left_mm: left_mm.clamp(low, high.max(low)), ..*self }
    }
}

impl View {
    /// The scale in force.
    pub fn scale(&self, extent_mm: (f64, f64), x: Rangef) -> Scale {
        self.zoomed.unwrap_or_else(|| Scale::fitting(extent_mm, f64::from(x.span())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const X: Rangef = Rangef { min: 10.0, max: 1010.0 };

    #[test]
    fn a_fitted_blank_is_in_sight_whole() {
        let scale = Scale::fitting((-38.0, 1962.0), 1000.0);
        assert!((scale.x(-38.0, X) - 24.0).abs() < 0.01);
        assert!((scale.x(1962.0, X) - 996.0).abs() < 0.01);
        assert!((scale.mm(scale.x(412.0, X), X) - 412.0).abs() < 0.01);
    }

    #[test]
    fn zoom_keeps_the_place_under_the_pointer() {
        let scale = Scale::fitting((0.0, 2000.0), 1000.0);
        let zoomed = scale.zoomed(3.0, 300.0, X, 0.1);
        assert!((scale.mm(300.0, X) - zoomed.mm(300.0, X)).abs() < 1e-9);
        assert!((zoomed.points_per_mm / scale.points_per_mm - 3.0).abs() < 1e-9);
        assert_eq!(scale.zoomed(1e9, 300.0, X, 0.1).points_per_mm, Scale::FINEST);
    }

    #[test]
    fn the_blank_cannot_be_lost_by_panning() {
        let scale = Scale { left_mm: 0.0, points_per_mm: 2.0 };
        for points in [-1e6, 1e6] {
            let (low, high) = scale.panned(points, (0.0, 2000.0), X).shown_mm(X);
            assert!(low < 2000.0 && high > 0.0, "{low} {high}");
        }
    }

    #[test]
    fn a_part_without_length_has_a_scale() {
        let scale = Scale::fitting((0.0, 0.0), 1000.0);
        assert!(scale.x(0.0, X).is_finite() && scale.points_per_mm > 0.0);
    }
}
