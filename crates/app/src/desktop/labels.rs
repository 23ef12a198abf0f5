//! The short texts that the scene wants beside its handles and stretches, painted over it.

use bevy_egui::egui;
use egui::{Align2, Color32, Id, LayerId, Order, Rect, Stroke, StrokeKind, TextStyle, Vec2};
use elbowroom_viewport::SceneLabel;

/// Room between a label's text and its edge, points.
const MARGIN: Vec2 = Vec2::new(6.0, 3.0);

/// Paints the labels inside `scene`, under every panel and dialog. `zoom` turns the window's logical
/// pixels into the interface's points.
pub fn paint(ctx: &egui::Context, scene: Rect, zoom: f32, labels: &[SceneLabel]) {
    let painter = ctx.layer_painter(LayerId::new(Order::Background, Id::new("scene labels"))).with_clip_rect(scene);
    let style = ctx.global_style();
    let visuals = &style.visuals;
    let font = TextStyle::Body.resolve(&style);
    for label in labels {
        let at = egui::pos2(label.at.x, label.at.y) / zoom;
        let ink = if label.strong { visuals.strong_text_color() } else { visuals.text_color() };
        let text = painter.layout_no_wrap(label.text.clone(), font.clone(), ink);
        let size = text.size() + 2.0 * MARGIN;
        // Beside the point, and pushed back in where it would leave the scene.
        let corner = Align2::LEFT_CENTER.anchor_size(at + Vec2::new(12.0, 0.0), size).min;
        let least = scene.min.to_vec2();
        let most = (scene.max - size).to_vec2().max(least);
        let corner = corner.to_vec2().clamp(least, most).to_pos2();
        let plate = Rect::from_min_size(corner, size);
        painter.rect_filled(plate, 3.0, visuals.window_fill);
        let edge = if label.strong { visuals.widgets.active.bg_stroke.color } else { visuals.window_stroke.color };
        painter.rect_stroke(plate, 3.0, Stroke::new(1.0, edge), StrokeKind::Inside);
        painter.galley(corner + MARGIN, text, Color32::PLACEHOLDER);
    }
}
