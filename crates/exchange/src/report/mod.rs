//! The report of a check: for scripts as JSON, for people as text.

mod json;
mod table;
mod text;

pub use json::to_json;
pub use text::{TextContext, to_text};
