//! A name with something to change beside it.

use egui::{Align, Layout, Ui, vec2};

/// Shows a name, `width` points wide, so that what stands beside the names of several rows lines up.
pub fn named_row<R>(ui: &mut Ui, width: f32, name: &str, content: impl FnOnce(&mut Ui) -> R) -> R {
    ui.horizontal_top(|ui| {
        let height = ui.spacing().interact_size.y;
        ui.allocate_ui_with_layout(vec2(width, height), Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(width);
            ui.label(name);
        });
        content(ui)
    })
    .inner
}
