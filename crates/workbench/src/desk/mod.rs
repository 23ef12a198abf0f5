//! The desk: which change is asked for, what is selected, what lies under the pointer, what the screen shows.

pub(crate) mod editing;
pub(crate) mod first_off;
mod follow;
pub(crate) mod palette;
pub(crate) mod screen;
pub(crate) mod selection;
pub(crate) mod trouble;
