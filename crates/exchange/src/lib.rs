//! Bytes to values and back: part files, points tables, and the report of a check.
//!
//! One file a format, one line a format in [`FORMATS`]. Everything that can be wrong with a file comes
//! out as a [`FileProblem`](elbowroom_workbench::file::FileProblem) that names the file, the line and what would be right.

mod around;
mod document;
mod error;
mod format;
pub mod mesh;
pub mod points_table;
pub mod report;

pub use around::neighbours;
pub use document::Document;
pub use format::{FORMATS, Format, format_of, read_document, write_document};
