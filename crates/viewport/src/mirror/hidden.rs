//! Which marks are so small on the screen that a handle would hide them.

use bevy::math::Vec2;
use elbowroom_bending::Solved;

use crate::camera::View;
use crate::marks::Mark;

/// A mark that is longer than this on the screen shows on both sides of any handle, logical pixels.
const SMALL_PIXELS: f32 = 26.0;

/// The middles of the small marks, logical pixels of the window, from left to right.
#[derive(Debug, Default)]
pub struct SmallMarks(Vec<Vec2>);

impl SmallMarks {
    /// The marks that are small as they are seen now.
    pub fn of(marks: &[Mark], solved: &Solved, view: &View) -> Self {
        let place = |station_mm: f64| view.project(&solved.centreline.point_at(station_mm));
        let small = marks.iter().filter_map(|mark| {
            let (from, to) = (place(mark.from_mm)?, place(mark.to_mm)?);
            (from.distance(to) <= SMALL_PIXELS).then_some((from + to) / 2.0)
        });
        let mut middles: Vec<Vec2> = small.collect();
        middles.sort_by(|a, b| a.x.total_cmp(&b.x));
        Self(middles)
    }

    /// Whether the middle of a small mark lies within so many pixels of a place.
    pub fn any_near(&self, at: Vec2, pixels: f32) -> bool {
        let first = self.0.partition_point(|middle| middle.x < at.x - pixels);
        let mut near = self.0[first..].iter().take_while(|middle| middle.x <= at.x + pixels);
        near.any(|middle| middle.distance(at) <= pixels)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::{Severity, solve, specimen};

    use super::*;
    use crate::SceneArea;
    use crate::camera::Eye;

    #[test]
    fn only_marks_that_are_small_on_the_screen_count() {
        let part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0)], 300.0).unwrap();
        let solved = solve(&part, &specimen::shop());
        let area = SceneArea { size: Vec2::new(1000.0, 800.0), ..Default::default() };
        let view = View::new(&Eye { distance_mm: 2000.0, ..Eye::default() }, &area).unwrap();
        let mark = |from_mm, to_mm| Mark { from_mm, to_mm, severity: Severity::Caution };
        let small = SmallMarks::of(&[mark(100.0, 103.0), mark(150.0, 290.0)], &solved, &view);
        let at = |station_mm: f64| view.project(&solved.centreline.point_at(station_mm)).unwrap();
        assert!(small.any_near(at(101.5) + Vec2::new(3.0, -4.0), 5.1));
        assert!(!small.any_near(at(101.5) + Vec2::new(3.0, -4.0), 4.9));
        assert!(!small.any_near(at(220.0), 5.0), "a long mark needs no help");
    }
}
