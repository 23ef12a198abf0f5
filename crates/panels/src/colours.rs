//! The theme's colours as egui knows them.

use egui::Color32;
use elbowroom_workbench::{Colour, Palette, Theme, palette};

/// A colour of the theme for egui.
pub fn colour(colour: Colour) -> Color32 {
    let [red, green, blue, alpha] = colour.rgba();
    Color32::from_rgba_unmultiplied(red, green, blue, alpha)
}

/// The colours of the theme that `ui` is drawn in.
pub fn colours(ui: &egui::Ui) -> &'static Palette {
    palette(if ui.visuals().dark_mode { Theme::Dark } else { Theme::Light })
}
