//! Small things that several panels draw.

mod choose;
mod entry_field;
mod figure;
mod heading;
mod legend;
mod link;
mod mark;
mod named_row;
mod page;
mod sized;
mod typing;

pub use choose::choose;
pub use entry_field::{
    FieldError, bare_entry_field, entry_field, give_next_the_keyboard, length_field, shown_length, tell,
};
pub use figure::{UNSURE, figure, figure_text};
pub use heading::heading;
pub use legend::legend;
pub use link::link;
pub use mark::{MARK_ASPECT, mark, paint_mark, stripes};
pub use named_row::named_row;
pub use page::page;
pub use sized::sized;
pub use typing::{forget_typing, leave_letters_to_verbs, letters_are_free, take_keyboard};
