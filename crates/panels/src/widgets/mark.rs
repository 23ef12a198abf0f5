//! The marks of severity: a dot for a note, diagonal stripes for a caution, solid with end rings for a
//! stop. Colour only repeats what pattern and shape say.

use egui::{Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui, Vec2, WidgetInfo, WidgetType, pos2};
use elbowroom_bending::Severity;
use elbowroom_workbench::Palette;

use crate::colours::{colour, colours};

/// How wide a mark is for its height.
pub const MARK_ASPECT: f32 = 1.4;

/// Draws a mark of so many points in height, called by its word.
pub fn mark(ui: &mut Ui, severity: Severity, height: f32) -> Response {
    let (rect, response) = ui.allocate_exact_size(Vec2::new(height * MARK_ASPECT, height), Sense::hover());
    paint_mark(ui.painter(), colours(ui), rect, severity);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, severity.word()));
    response
}

/// Paints a mark into a rectangle.
pub fn paint_mark(painter: &Painter, palette: &Palette, rect: Rect, severity: Severity) {
    let fill = colour(palette.severity(severity));
    let line = Stroke::new((rect.height() / 12.0).clamp(1.0, 2.5), colour(palette.mark_outline));
    match severity {
        Severity::Note => {
            painter.circle(rect.center(), rect.height() * 0.32, fill, line);
        }
        Severity::Caution => {
            let body = rect.shrink2(Vec2::new(rect.width() * 0.06, rect.height() * 0.14));
            painter.rect_filled(body, 2.0, colour(palette.field));
            painter.extend(stripes(body, rect.height() / 3.6, fill));
            painter.rect_stroke(body, 2.0, line, egui::StrokeKind::Inside);
        }
        Severity::Stop => {
            // A solid bar with a ring round either end, as the scene and the strip mark the tube itself.
            let ring = Vec2::new(rect.height() * 0.26, rect.height() * 0.88);
            let body = rect.shrink2(Vec2::new(ring.x / 2.0, rect.height() * 0.26));
            painter.rect(body, 0.0, fill, line, egui::StrokeKind::Inside);
            for x in [rect.left() + ring.x / 2.0, rect.right() - ring.x / 2.0] {
                let place = Rect::from_center_size(pos2(x, rect.center().y), ring);
                painter.rect(place, ring.x / 2.0, fill, line, egui::StrokeKind::Inside);
            }
        }
    }
}

/// Diagonal stripes that rise to the right, clipped to a rectangle, as filled shapes. `pitch` is the
/// distance along the base from one stripe to the next; half of it is filled.
pub fn stripes(rect: Rect, pitch: f32, fill: egui::Color32) -> Vec<Shape> {
    if !(pitch > 0.0 && rect.is_positive()) {
        return Vec::new();
    }
    let rise = rect.height();
    let mut shapes = Vec::new();
    let mut foot = rect.left() - rise;
    while foot < rect.right() {
        let corners = [
            pos2(foot, rect.bottom()),
            pos2(foot + pitch / 2.0, rect.bottom()),
            pos2(foot + pitch / 2.0 + rise, rect.top()),
            pos2(foot + rise, rect.top()),
        ];
        let clipped = clip(&corners, rect);
        if clipped.len() >= 3 {
            shapes.push(Shape::convex_polygon(clipped, fill, Stroke::NONE));
        }
        foot += pitch;
    }
    shapes
}

/// Clips a convex polygon to the left and right sides of a rectangle.
fn clip(corners: &[Pos2], rect: Rect) -> Vec<Pos2> {
    let left = clip_side(corners, |point| point.x - rect.left());
    clip_side(&left, |point| rect.right() - point.x)
}

/// Keeps the part of a convex polygon where `inside` is not negative (Sutherland and Hodgman's method).
fn clip_side(corners: &[Pos2], inside: impl Fn(Pos2) -> f32) -> Vec<Pos2> {
    let mut kept = Vec::with_capacity(corners.len() + 2);
    for (index, &here) in corners.iter().enumerate() {
        let next = corners[(index + 1) % corners.len()];
        let (a, b) = (inside(here), inside(next));
        if a >= 0.0 {
            kept.push(here);
        }
        if (a >= 0.0) != (b >= 0.0) {
            kept.push(here + (next - here) * (a / (a - b)));
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stripes_stay_within_their_rectangle() {
        let rect = Rect::from_min_max(pos2(10.0, 20.0), pos2(40.0, 30.0));
        let shapes = stripes(rect, 6.0, egui::Color32::PLACEHOLDER);
        assert!(shapes.len() >= 5);
        for shape in shapes {
            assert!(rect.expand(1e-3).contains_rect(shape.visual_bounding_rect()), "{shape:?}");
        }
    }

    #[test]
    fn stripes_of_nothing_are_none() {
        assert!(stripes(Rect::NOTHING, 6.0, egui::Color32::PLACEHOLDER).is_empty());
        assert!(stripes(Rect::EVERYTHING, 0.0, egui::Color32::PLACEHOLDER).is_empty());
    }
}
