//! The desk: what is selected, what lies under the pointer, what the screen shows.

pub(crate) mod palette;
pub(crate) mod screen;
pub(crate) mod selection;
pub(crate) mod trouble;
