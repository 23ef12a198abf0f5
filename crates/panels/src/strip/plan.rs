//! Where everything of the strip goes on the screen, from top to bottom.

use egui::{Rangef, Rect, pos2};

use super::scale::Scale;

/// Room for the sentence on top, points.
const TITLE: f32 = 20.0;
/// Height of a lane of clamps, points.
const CLAMP_LANE: f32 = 22.0;
/// How many lanes there are for clamps.
pub const CLAMP_LANES: usize = 2;
/// Height of a lane of findings, points.
const MARK_LANE: f32 = 12.0;
/// How many lanes there are for findings.
pub const MARK_LANES: usize = 2;
/// Room for the ruler, points.
const RULER: f32 = 26.0;
/// Free room between the parts, points.
const GAP: f32 = 4.0;
/// The least and the most height of the tube, points.
const TUBE: Rangef = Rangef { min: 34.0, max: 64.0 };

/// The strip's parts on the screen.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// The whole strip.
    pub rect: Rect,
    /// From side to side.
    pub x: Rangef,
    /// The sentence on top.
    pub title: Rangef,
    /// The lanes of clamps; lane 0 lies next to the tube.
    clamps: Rangef,
    /// The tube.
    pub tube: Rangef,
    /// The lanes of findings; lane 0 lies next to the tube.
    marks: Rangef,
    /// The ruler.
    pub ruler: Rangef,
    /// From mm to points.
    pub scale: Scale,
}

impl Plan {
    /// The height that the strip likes to have, points.
    pub const HEIGHT: f32 = Self::BESIDE_TUBE + 42.0;
    /// Everything but the tube.
    const BESIDE_TUBE: f32 =
        TITLE + CLAMP_LANE * CLAMP_LANES as f32 + MARK_LANE * MARK_LANES as f32 + RULER + 3.0 * GAP;

    /// Divides a rectangle of the screen.
    pub fn new(rect: Rect, scale: Scale) -> Self {
        let tube = TUBE.clamp(rect.height() - Self::BESIDE_TUBE);
        let mut top = rect.top();
        let mut take = |height: f32, gap: f32| {
            let range = Rangef::new(top, top + height);
            top += height + gap;
            range
        };
        let title = take(TITLE, 0.0);
        let clamps = take(CLAMP_LANE * CLAMP_LANES as f32, GAP);
        let tube = take(tube, GAP);
        let marks = take(MARK_LANE * MARK_LANES as f32, GAP);
        let ruler = take(RULER, 0.0);
        Self { rect, x: rect.x_range(), title, clamps, tube, marks, ruler, scale }
    }

    /// The place of a length along the tube.
    pub fn at(&self, mm: f64) -> f32 {
        self.scale.x(mm, self.x)
    }

    /// A stretch of the tube between two heights; never turned inside out.
    pub fn stretch(&self, from_mm: f64, to_mm: f64, y: Rangef) -> Rect {
        let (from, to) = (self.at(from_mm), self.at(to_mm));
        Rect::from_min_max(pos2(from.min(to), y.min), pos2(from.max(to), y.max))
    }

    /// Whether anything of a stretch is in sight.
    pub fn sees(&self, from_mm: f64, to_mm: f64) -> bool {
        let (from, to) = (self.at(from_mm), self.at(to_mm));
        from.max(to) >= self.x.min && from.min(to) <= self.x.max
    }

    /// A lane of clamps.
    pub fn clamp_lane(&self, lane: usize) -> Rangef {
        let bottom = self.clamps.max - CLAMP_LANE * lane as f32;
        Rangef::new(bottom - CLAMP_LANE, bottom)
    }

    /// A lane of findings.
    pub fn mark_lane(&self, lane: usize) -> Rangef {
        let top = self.marks.min + MARK_LANE * lane as f32;
        Rangef::new(top, top + MARK_LANE - 3.0)
    }
}
