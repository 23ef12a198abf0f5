//! Severity on a stretch, told by pattern as well as by colour: dots for a note, diagonal stripes for a
//! caution, solid with end rings for a stop.

use egui::{Color32, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};
use elbowroom_bending::Severity;
use elbowroom_workbench::Palette;

use crate::colours::colour;

/// Paints the mark of a severity over a stretch.
pub fn paint_stretch(painter: &Painter, rect: Rect, severity: Severity, palette: &Palette) {
    let (fill, outline) = (colour(palette.severity(severity)), Stroke::new(1.0, colour(palette.mark_outline)));
    match severity {
        Severity::Note => {
            painter.rect_stroke(rect, 2.0, outline, StrokeKind::Inside);
            let radius = (rect.height() * 0.28).min(3.0);
            let count = ((rect.width() - 4.0) / (radius * 4.0)).floor().max(1.0);
            let step = rect.width() / count;
            let mut x = rect.left() + step / 2.0;
            while x < rect.right() && step > 0.0 {
                painter.circle_filled(pos2(x, rect.center().y), radius, fill);
                x += step;
            }
        }
        Severity::Caution => {
            painter.extend(stripes(rect, 6.0, Stroke::new(2.5, fill)));
            painter.rect_stroke(rect, 0.0, outline, StrokeKind::Inside);
        }
        Severity::Stop => {
            painter.rect_filled(rect, 0.0, fill);
            painter.rect_stroke(rect, 0.0, outline, StrokeKind::Inside);
            let radius = rect.height() * 0.5 + 1.0;
            for x in [rect.left(), rect.right()] {
                let centre = pos2(x, rect.center().y);
                painter.circle(centre, radius, colour(palette.panel), Stroke::new(2.0, fill));
                painter.circle_stroke(centre, radius + 1.0, outline);
            }
        }
    }
}

/// Diagonal lines across a rectangle, `step` points apart, cut at its sides.
pub fn stripes(rect: Rect, step: f32, stroke: Stroke) -> Vec<Shape> {
    let height = rect.height();
    let mut shapes = Vec::new();
    if !(rect.is_positive() && step > 0.0) {
        return shapes;
    }
    // Fixed to the screen rather than to the rectangle, so that stripes do not crawl while dragging.
    let mut x = (rect.left() / step).floor() * step;
    while x < rect.right() + height {
        let (top, bottom) = (pos2(x, rect.top()), pos2(x - height, rect.bottom()));
        if let Some(points) = cut(top, bottom, rect) {
            shapes.push(Shape::line_segment(points, stroke));
        }
        x += step;
    }
    shapes
}

/// The part of a 45° line between the sides of `rect`; both its ends lie on top and bottom.
fn cut(top: Pos2, bottom: Pos2, rect: Rect) -> Option<[Pos2; 2]> {
    let beyond = (top.x - rect.right()).max(0.0);
    let short = (rect.left() - bottom.x).max(0.0);
    let (from, to) = (top + vec2(-beyond, beyond), bottom + vec2(short, -short));
    (from.y < to.y).then_some([from, to])
}

/// Two sets of stripes across one another, for what is cut away.
pub fn hatch(rect: Rect, step: f32, ink: Color32) -> Vec<Shape> {
    stripes(rect, step, Stroke::new(1.0, ink))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]

    use super::*;

    #[test]
    fn stripes_stay_within_their_rectangle() {
        let rect = Rect::from_min_max(pos2(13.0, 7.0), pos2(58.0, 19.0));
        let shapes = stripes(rect, 6.0, Stroke::new(1.0, Color32::BLACK));
        assert!(shapes.len() > 6, "{}", shapes.len());
        for shape in shapes {
            let Shape::LineSegment { points, .. } = shape else { panic!("a line was expected") };
            for point in points {
                assert!(rect.expand(1e-3).contains(point), "{point:?}");
            }
        }
        assert!(stripes(Rect::NOTHING, 6.0, Stroke::NONE).is_empty());
    }
}
