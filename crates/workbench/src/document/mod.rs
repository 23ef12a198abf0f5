//! The document: what is drawn, its history, and how it is changed.

pub(crate) mod editing;
pub(crate) mod first_off;
mod follow;
pub(crate) mod history;
