//! A page to read over the scene: a window that can be moved, sized and closed.

use egui::{ScrollArea, Ui, Vec2, Window};

/// Shows a page of about `size` points, smaller where the window leaves less. Says whether it stays open.
pub fn page(ui: &Ui, id: &str, title: &str, size: Vec2, content: impl FnOnce(&mut Ui)) -> bool {
    let mut open = true;
    let window = ui.ctx().content_rect();
    let size = size.min(window.size() * Vec2::new(0.8, 0.75));
    Window::new(title)
        .id(egui::Id::new(id))
        .open(&mut open)
        .collapsible(false)
        .default_size(size)
        .default_pos(window.center() - size / 2.0)
        .constrain_to(window)
        .show(ui.ctx(), |ui| ScrollArea::vertical().auto_shrink([false, false]).show(ui, content));
    open
}
