//! How a click selects.

use egui::{Event, Ui};
use elbowroom_workbench::SelectMode;

/// How a click of this frame selects: shift or control held add.
pub(super) fn click_mode(ui: &Ui) -> SelectMode {
    // The click itself is asked: the key may have been let go within the frame, and shift is also held for
    // going back with Tab.
    let adds =
        |event: &Event| matches!(event, Event::PointerButton { modifiers, .. } if modifiers.shift || modifiers.command);
    if ui.input(|input| input.events.iter().any(adds)) { SelectMode::Toggle } else { SelectMode::Only }
}
