//! What the view for the machine is put together from: a tile with a figure, a tick, a sentence with its mark, a clock.

use egui::text::LayoutJob;
use egui::{
    Align2, Color32, FontId, Frame, Label, Margin, RichText, Sense, Shape, Stroke, Ui, WidgetInfo, WidgetType, pos2,
    vec2,
};
use elbowroom_bending::Severity;

use super::model::{Figure, Tick};
use super::sizes::Sizes;
use crate::colours::{colour, colours};
use crate::fonts::bold;
use crate::widgets::mark;

/// A figure in a box of its own, as large as fits.
pub(super) fn tile(ui: &mut Ui, figure: &Figure, width: f32, size: f32, sizes: Sizes) {
    const MARGIN: f32 = 12.0;
    let palette = colours(ui);
    let frame = Frame::new()
        .fill(colour(palette.raised))
        .stroke(Stroke::new(1.0, colour(palette.border)))
        .corner_radius(6.0)
        .inner_margin(Margin::symmetric(MARGIN as i8, 8));
    frame.show(ui, |ui| {
        let room = width - 2.0 * MARGIN - 2.0;
        ui.set_width(room);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            ui.label(RichText::new(figure.name).size(sizes.small).weak());
            let font = |size: f32| FontId::new(size, bold());
            let ink = ui.visuals().text_color();
            let layout = |ui: &Ui, text: &str, size: f32| {
                ui.fonts_mut(|fonts| fonts.layout_no_wrap(text.to_owned(), font(size), ink))
            };
            // The unit is half as high.
            let unit = if figure.unit.is_empty() { String::new() } else { format!(" {}", figure.unit) };
            let wide = layout(ui, &figure.value, size).size().x + layout(ui, &unit, size / 2.0).size().x;
            let fits = if wide > room { size * room / wide } else { size };
            // In a row of its full height, so that a long figure does not pull the others up.
            let (place, response) = ui.allocate_exact_size(vec2(room, size * 1.2), Sense::hover());
            let (value, unit) = (layout(ui, &figure.value, fits), layout(ui, &unit, fits / 2.0));
            let top = place.center().y - value.size().y / 2.0;
            let behind = pos2(place.left() + value.size().x, top + value.size().y * 0.9 - unit.size().y * 0.9);
            ui.painter().galley(pos2(place.left(), top), value, ink);
            ui.painter().galley(behind, unit, ink);
            let said = figure.said();
            response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &said));
            let below = if figure.below.is_empty() { " " } else { &figure.below };
            ui.add(Label::new(RichText::new(below).size(below_size(ui, below, room, sizes))).extend());
        });
    });
}

/// The size at which what stands below a figure fits in its tile.
fn below_size(ui: &Ui, below: &str, room: f32, sizes: Sizes) -> f32 {
    let font = FontId::proportional(sizes.text);
    let wide = ui.fonts_mut(|fonts| fonts.layout_no_wrap(below.to_owned(), font, Color32::PLACEHOLDER).size().x);
    if wide > room { sizes.text * room / wide } else { sizes.text }
}

/// A sentence with the mark of its severity.
pub(super) fn said(ui: &mut Ui, severity: Option<Severity>, text: &str, size: f32) {
    ui.horizontal_top(|ui| {
        if let Some(severity) = severity {
            mark(ui, severity, size);
        }
        let ink = ui.visuals().text_color();
        let job = LayoutJob::simple(text.to_owned(), FontId::proportional(size), ink, ui.available_width());
        ui.add(Label::new(job).wrap());
    });
}

/// A thing to be done, ticked where it is.
pub(super) fn tick(ui: &mut Ui, tick: Tick, size: f32) {
    let palette = colours(ui);
    let name = if tick.number == 0 { "Load".to_owned() } else { tick.number.to_string() };
    let font = FontId::new(size, bold());
    let ink = colour(if tick.now { palette.on_accent } else { palette.text });
    let text = ui.fonts_mut(|fonts| fonts.layout_no_wrap(name.clone(), font, ink));
    let room = if tick.done { size } else { 0.0 };
    let (rect, response) =
        ui.allocate_exact_size(vec2(text.size().x + room + 16.0, text.size().y + 8.0), Sense::hover());
    let word = if tick.done {
        "done"
    } else if tick.now {
        "now"
    } else {
        "to do"
    };
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, format!("{name}: {word}")));
    let painter = ui.painter();
    painter.rect_filled(rect, 5.0, colour(if tick.now { palette.accent } else { palette.raised }));
    if !tick.now {
        painter.rect_stroke(rect, 5.0, Stroke::new(1.0, colour(palette.border)), egui::StrokeKind::Inside);
    }
    painter.galley(pos2(rect.left() + 8.0, rect.top() + 4.0), text, ink);
    if tick.done {
        // Drawn, as no font of ours holds the sign.
        let at = |x: f32, y: f32| pos2(rect.right() - 6.0 - size * (1.0 - x), rect.center().y + size * y);
        let line = vec![at(0.15, 0.0), at(0.4, 0.28), at(0.85, -0.32)];
        painter.add(Shape::line(line, Stroke::new((size / 8.0).max(1.5), colour(palette.accent))));
    }
}

/// The end of the tube as a clock, its seam where it goes.
pub(super) fn clock(ui: &mut Ui, seam_deg: f64, sizes: Sizes) {
    let palette = colours(ui);
    let side = (ui.available_height() - sizes.small).clamp(90.0, 230.0);
    let (rect, response) = ui.allocate_exact_size(vec2(side, side), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Image, true, "the seam on a clock"));
    let painter = ui.painter();
    let (centre, radius) = (rect.center(), side * 0.36);
    let towards = |degrees: f64, by: f32| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        centre + vec2(sin as f32, -cos as f32) * by
    };
    painter.circle(centre, radius, colour(palette.tube), Stroke::new(2.0, colour(palette.mark_outline)));
    painter.circle_filled(centre, radius * 0.82, colour(palette.panel));
    for hour in [12, 3, 6, 9] {
        let at = towards(f64::from(hour) * 30.0, radius + sizes.small * 0.75);
        let font = FontId::proportional(sizes.small);
        painter.text(at, Align2::CENTER_CENTER, hour.to_string(), font, ui.visuals().text_color());
    }
    for hour in 0..12 {
        let angle = f64::from(hour) * 30.0;
        let line = [towards(angle, radius * 0.66), towards(angle, radius * 0.76)];
        painter.line_segment(line, Stroke::new(1.5, colour(palette.weak_text)));
    }
    let hand = [centre, towards(seam_deg, radius * 0.91)];
    painter.line_segment(hand, Stroke::new(2.5, colour(palette.text)));
    painter.circle(hand[1], radius * 0.11, colour(palette.tube_seam), Stroke::new(2.0, colour(palette.text)));
}
