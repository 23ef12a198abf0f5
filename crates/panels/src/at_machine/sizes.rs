//! How large the letters of the view for the machine are.

use egui::{Ui, vec2};

/// The window, points, for which the sizes of letters here are meant; in others they grow and shrink with it.
const MEANT_FOR: egui::Vec2 = vec2(1280.0, 800.0);

/// Sizes of letters, points: capitals of the largest are 15 mm high on a usual screen, of the least 5 mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sizes {
    /// The figures that are set.
    pub huge: f32,
    /// The others.
    pub large: f32,
    /// Sentences.
    pub text: f32,
    /// What stands beside and below.
    pub small: f32,
}

impl Sizes {
    /// Those for the room there is.
    pub fn of(ui: &Ui) -> Self {
        let window = ui.max_rect().size();
        let scale = (window.x / MEANT_FOR.x).min(window.y / MEANT_FOR.y).clamp(0.45, 3.0);
        let [huge, large, text, small] = [92.0, 52.0, 27.0, 21.0].map(|size: f32| (size * scale).round());
        Self { huge, large, text, small }
    }
}
