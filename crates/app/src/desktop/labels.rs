//! The short texts that the scene wants beside its handles and stretches, painted over it.

use bevy_egui::egui;
use egui::{Align2, Color32, Id, LayerId, Order, Rect, Stroke, StrokeKind, TextStyle, Vec2};
use elbowroom_viewport::{SceneLabel, SceneSign};

/// Room between a label's text and its edge, points.
const MARGIN: Vec2 = Vec2::new(6.0, 3.0);

/// Paints the labels inside `scene`, under every panel and dialog. `zoom` turns the window's logical
/// pixels into the interface's points.
pub fn paint(ctx: &egui::Context, scene: Rect, zoom: f32, labels: &[SceneLabel], signs: &[SceneSign]) {
    let painter = ctx.layer_painter(LayerId::new(Order::Background, Id::new("scene labels"))).with_clip_rect(scene);
    let style = ctx.global_style();
    let visuals = &style.visuals;
    let font = TextStyle::Body.resolve(&style);
    // Signs stand still: what is dragged or pointed at lies over them.
    let small = TextStyle::Small.resolve(&style);
    for sign in signs {
        let text = painter.layout_no_wrap(sign.text.clone(), small.clone(), visuals.text_color());
        let size = text.size() + 2.0 * Vec2::new(3.0, 1.0);
        let plate = beside(egui::pos2(sign.at.x, sign.at.y) / zoom, Vec2::new(sign.towards.x, sign.towards.y), size);
        // What stands beside something in the picture is not cut off at its edge.
        let plate =
            if scene.contains(egui::pos2(sign.at.x, sign.at.y) / zoom) { pushed_into(plate, scene) } else { plate };
        painter.rect_filled(plate, 3.0, visuals.window_fill.gamma_multiply(0.85));
        painter.galley(plate.min + Vec2::new(3.0, 1.0), text, Color32::PLACEHOLDER);
    }
    // What is dragged or pointed at comes first; the others make room for it.
    let mut plates: Vec<Rect> = Vec::with_capacity(labels.len());
    let (strong, weak): (Vec<_>, Vec<_>) = labels.iter().partition(|label| label.strong);
    for label in strong.into_iter().chain(weak) {
        let at = egui::pos2(label.at.x, label.at.y) / zoom;
        let ink = if label.strong { visuals.strong_text_color() } else { visuals.text_color() };
        let text = painter.layout_no_wrap(label.text.clone(), font.clone(), ink);
        let size = text.size() + 2.0 * MARGIN;
        // Beside the point, and pushed back in where it would leave the scene.
        let corner = Align2::LEFT_CENTER.anchor_size(at + Vec2::new(12.0, 0.0), size).min;
        let least = scene.min.to_vec2();
        let most = (scene.max - size).to_vec2().max(least);
        let corner = corner.to_vec2().clamp(least, most).to_pos2();
        let plate = with_room(Rect::from_min_size(corner, size), scene, &plates);
        plates.push(plate);
        painter.rect_filled(plate, 3.0, visuals.window_fill);
        let edge = if label.strong { visuals.widgets.active.bg_stroke.color } else { visuals.window_stroke.color };
        painter.rect_stroke(plate, 3.0, Stroke::new(1.0, edge), StrokeKind::Inside);
        painter.galley(plate.min + MARGIN, text, Color32::PLACEHOLDER);
    }
}

/// Paints the box that is drawn to select what lies in it.
pub fn paint_box(ctx: &egui::Context, scene: Rect, zoom: f32, corners: Option<(bevy::math::Vec2, bevy::math::Vec2)>) {
    let Some((min, max)) = corners else { return };
    let painter = ctx.layer_painter(LayerId::new(Order::Background, Id::new("scene box"))).with_clip_rect(scene);
    let at = |corner: bevy::math::Vec2| egui::pos2(corner.x, corner.y) / zoom;
    let rect = Rect::from_min_max(at(min), at(max));
    let edge = ctx.global_style().visuals.widgets.active.bg_stroke.color;
    painter.rect_filled(rect, 0.0, edge.gamma_multiply(0.12));
    painter.rect_stroke(rect, 0.0, Stroke::new(1.0, edge), StrokeKind::Inside);
}

/// The plate moved as little as brings it into the scene.
fn pushed_into(plate: Rect, scene: Rect) -> Rect {
    let least = scene.min.to_vec2();
    let most = (scene.max - plate.size()).to_vec2().max(least);
    Rect::from_min_size(plate.min.to_vec2().clamp(least, most).to_pos2(), plate.size())
}

/// A plate of a size that touches a point from the side to which a direction of length 1 leads.
fn beside(at: egui::Pos2, towards: Vec2, size: Vec2) -> Rect {
    let half = |size: f32, share: f32| if share.abs() > 1e-3 { size / 2.0 / share.abs() } else { f32::INFINITY };
    let reach = half(size.x, towards.x).min(half(size.y, towards.y));
    Rect::from_center_size(at + towards * reach, size)
}

/// The plate moved up or down as little as lets it lie beside those already there, within the scene; where it is, if
/// there is no room anywhere near.
fn with_room(plate: Rect, scene: Rect, others: &[Rect]) -> Rect {
    let step = plate.height() + 2.0;
    let places = [0.0, 1.0, -1.0, 2.0, -2.0].map(|steps| plate.translate(Vec2::new(0.0, steps * step)));
    let free = |place: &Rect| {
        let inside = place.top() >= scene.top() && place.bottom() <= scene.bottom();
        inside && !others.iter().any(|other| other.intersects(*place))
    };
    places.into_iter().find(free).unwrap_or(plate)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plate(x: f32, y: f32) -> Rect {
        Rect::from_min_size(egui::pos2(x, y), Vec2::new(60.0, 20.0))
    }

    #[test]
    fn a_sign_stands_on_its_side_of_the_point_and_touches_it() {
        let (at, size) = (egui::pos2(50.0, 40.0), Vec2::new(60.0, 20.0));
        assert_eq!(beside(at, Vec2::new(-1.0, 0.0), size).right(), 50.0);
        assert_eq!(beside(at, Vec2::new(0.0, 1.0), size).top(), 40.0);
        let aslant = beside(at, Vec2::new(0.6, -0.8), size);
        assert!(!aslant.shrink(0.1).contains(at) && aslant.expand(0.1).contains(at), "{aslant:?}");
    }

    #[test]
    fn plates_make_room_for_one_another_and_stay_in_the_scene() {
        let scene = Rect::from_min_size(egui::Pos2::ZERO, Vec2::new(400.0, 300.0));
        let first = plate(100.0, 100.0);
        assert_eq!(with_room(plate(200.0, 100.0), scene, &[first]), plate(200.0, 100.0), "there is room");
        let moved = with_room(plate(120.0, 105.0), scene, &[first]);
        assert!(!moved.intersects(first) && moved.left() == 120.0 && (moved.top() - 105.0).abs() < 25.0, "{moved:?}");
        let low = plate(100.0, 280.0);
        let above = with_room(plate(120.0, 280.0), scene, &[low]);
        assert!(above.bottom() <= 280.0 && !above.intersects(low), "{above:?}");
    }
}
