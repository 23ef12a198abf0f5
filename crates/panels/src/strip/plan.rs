//! Where everything of the strip goes on the screen, from top to bottom.

use egui::{Rangef, Rect, pos2};

use super::scale::Scale;

/// Room for the sentence on top, points.
const TITLE: f32 = 20.0;
/// Height of a lane of clamps, points.
const CLAMP_LANE: f32 = 22.0;
/// How many lanes there are for clamps, and as many for findings, where there is room.
const LANES: usize = 2;
/// Height of a lane of findings, points.
const MARK_LANE: f32 = 12.0;
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
    /// The sentence on top; none in a low window.
    pub title: Option<Rangef>,
    /// How many lanes there are for clamps, and as many for findings.
    pub lanes: usize,
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
    pub const HEIGHT: f32 = Self::beside_tube(TITLE, LANES) + 42.0;
    /// The least height that it can do with: no sentence, single lanes.
    pub const LEAST: f32 = Self::beside_tube(0.0, 1) + TUBE.min;
    /// The most height that it has a use for.
    pub const MOST: f32 = Self::beside_tube(TITLE, LANES) + TUBE.max;

    /// Everything but the tube.
    const fn beside_tube(title: f32, lanes: usize) -> f32 {
        title + (CLAMP_LANE + MARK_LANE) * lanes as f32 + RULER + 3.0 * GAP
    }

    /// Divides a rectangle of the screen. Where it is low, lanes and then the sentence are left away.
    pub fn new(rect: Rect, scale: Scale) -> Self {
        let fits = |(title, lanes): &(f32, usize)| Self::beside_tube(*title, *lanes) + TUBE.min <= rect.height();
        let choices = [(TITLE, LANES), (TITLE, 1), (0.0, 1)];
        let (title_height, lanes) = choices.into_iter().find(fits).unwrap_or((0.0, 1));
        let tube = TUBE.clamp(rect.height() - Self::beside_tube(title_height, lanes));
        let mut top = rect.top();
        let mut take = |height: f32, gap: f32| {
            let range = Rangef::new(top, top + height);
            top += height + gap;
            range
        };
        let title = take(title_height, 0.0);
        let clamps = take(CLAMP_LANE * lanes as f32, GAP);
        let tube = take(tube, GAP);
        let marks = take(MARK_LANE * lanes as f32, GAP);
        let ruler = take(RULER, 0.0);
        let title = (title_height > 0.0).then_some(title);
        Self { rect, x: rect.x_range(), title, lanes, clamps, tube, marks, ruler, scale }
    }

    /// The place of a length along the tube.
    pub fn at(&self, mm: f64) -> f32 {
        self.scale.x(mm, self.x)
    }

    /// How long a length along the tube is on the screen, points.
    pub fn length(&self, mm: f64) -> f32 {
        (mm * self.scale.points_per_mm) as f32
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

#[cfg(test)]
mod tests {
    use egui::vec2;

    use super::*;

    #[test]
    fn a_low_strip_leaves_away_what_can_be_missed_and_stays_within_itself() {
        let scale = Scale { left_mm: 0.0, points_per_mm: 1.0 };
        for height in [Plan::LEAST, 130.0, 150.0, Plan::HEIGHT, Plan::MOST] {
            let rect = Rect::from_min_size(pos2(0.0, 100.0), vec2(900.0, height));
            let plan = Plan::new(rect, scale);
            assert!(plan.ruler.max <= rect.bottom() + 0.01, "{height}");
            assert!(TUBE.contains(plan.tube.span()), "{height}");
            assert!(plan.clamp_lane(plan.lanes - 1).min >= rect.top() - 0.01, "{height}");
        }
        let lanes = |height| Plan::new(Rect::from_min_size(pos2(0.0, 0.0), vec2(900.0, height)), scale);
        assert_eq!((lanes(Plan::LEAST).lanes, lanes(Plan::LEAST).title), (1, None));
        assert!(lanes(Plan::HEIGHT).lanes == 2 && lanes(Plan::HEIGHT).title.is_some());
    }
}
