//! Which of the shop's tooling makes a part, and what the drawing would have to be: as text, as JSON.

mod json;
mod text;

pub use json::compare_to_json;
pub use text::compare_to_text;
