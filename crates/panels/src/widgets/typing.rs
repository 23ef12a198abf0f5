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

fn letters_free_id() -> Id {
    Id::new("letters are free of the field that has the keyboard")
}

/// A number is about to be typed over, and no number begins with a letter: a letter is a verb's key and not text. Call
/// before the field that has the keyboard is drawn; `untouched` says whether nothing was typed into it yet.
pub fn leave_letters_to_verbs(ui: &Ui, untouched: bool) {
    let mut free = untouched;
    if untouched {
        ui.input_mut(|input| {
            input.events.retain(|event| match event {
                Event::Text(text) => {
                    let letter = free && text.starts_with(char::is_alphabetic);
                    free &= letter;
                    !letter
                }
                _ => true,
            });
        });
    }
    let until = ui.ctx().cumulative_pass_nr() + 1;
    ui.data_mut(|data| {
        if free {
            data.insert_temp(letters_free_id(), until);
        } else {
            data.remove::<u64>(letters_free_id());
        }
    });
}

/// Whether letters are left to verbs though a field has the keyboard.
pub fn letters_are_free(context: &egui::Context) -> bool {
    let until: Option<u64> = context.data(|data| data.get_temp(letters_free_id()));
    until.is_some_and(|until| context.cumulative_pass_nr() <= until)
}
