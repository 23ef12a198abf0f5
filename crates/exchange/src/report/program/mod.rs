//! The bend program for people and for scripts: as a sheet, as JSON, as CSV.

mod csv;
mod json;
mod text;

pub use csv::program_to_csv;
pub(super) use json::from_word;
pub use json::program_to_json;
pub use text::program_to_text;
