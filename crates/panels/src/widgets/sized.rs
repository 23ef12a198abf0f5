//! A place of a fixed width for a field in a line.

use egui::{Align, Layout, Ui, vec2};

/// Draws into a place so many points wide, less where there is less room.
pub fn sized<R>(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui) -> R) -> R {
    let size = vec2(width.min(ui.available_width()), ui.spacing().interact_size.y);
    ui.allocate_ui_with_layout(size, Layout::top_down(Align::Min), |ui| {
        ui.set_width(size.x);
        content(ui)
    })
    .inner
}
