//! The heading of a panel: its name, and what there is to say about it at the far end.

use egui::{Align, Layout, RichText, Sides, Ui};

use crate::style::heading_text;

/// Draws a heading with whatever `beside` puts at its right end.
pub fn heading<R>(ui: &mut Ui, text: &str, beside: impl FnOnce(&mut Ui) -> R) -> R {
    let (_, given) = Sides::new().show(
        ui,
        |ui| {
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.label(RichText::new(text).text_style(heading_text()));
            })
        },
        beside,
    );
    given
}
