//! What the mark of unsure figures means, at the foot of whatever shows one.

use egui::{Label, RichText, Ui};
use elbowroom_bending::setup::UNSURE_LEGEND;

/// Draws it where something is unsure.
pub fn legend(ui: &mut Ui, unsure: bool) {
    if unsure {
        ui.add(Label::new(RichText::new(UNSURE_LEGEND).small().weak()).wrap());
    }
}
