//! A word to click on, underlined so that it is not told by colour alone.

use egui::{Button, Response, RichText, Ui};

use crate::colours::{colour, colours};

/// Draws a link that calls itself `label` to a screen reader.
pub fn link(ui: &mut Ui, text: &str, label: &str) -> Response {
    let accent = colour(colours(ui).accent);
    let button = Button::new(RichText::new(text).color(accent).underline()).frame(false);
    let response = ui.add(button);
    let label = label.to_owned();
    response.widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Link, true, &label));
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}
