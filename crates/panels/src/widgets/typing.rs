//! How the keyboard goes from one field to the next without losing or doubling what is typed meanwhile.

use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{Event, Id, Ui};

/// Gives a text field the keyboard, its whole text marked to be typed over. Before the field is drawn, so that it
/// hears what is typed in this very frame.
pub fn take_keyboard(ui: &Ui, field: Id, text: &str) {
    let mut state = TextEditState::load(ui.ctx(), field).unwrap_or_default();
    state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()))));
    state.store(ui.ctx(), field);
    ui.memory_mut(|memory| memory.request_focus(field));
}

/// Takes what was typed in this frame out of the input: one field has heard it, and the next must not hear it again.
pub fn forget_typing(ui: &Ui) {
    let of_typing = |event: &Event| match event {
        Event::Text(_) | Event::Paste(_) => true,
        Event::Key { modifiers, .. } => !modifiers.command && !modifiers.alt,
        _ => false,
    };
    ui.input_mut(|input| input.events.retain(|event| !of_typing(event)));
}
