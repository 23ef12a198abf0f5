//! Bytes to values and back: part files, points tables, solids for other programs, and the report of a check.
//!
//! One file a format, one line a format in [`FORMATS`]. Everything that can be wrong with a file comes
//! out as a [`FileProblem`](elbowroom_workbench::file::FileProblem) that names the file, the line and what would be right.

mod around;
mod chained;
mod document;
pub mod dxf;
mod error;
mod finished;
mod format;
pub mod mesh;
pub mod points_table;
pub mod report;
pub mod sheet;
mod sound_run;
pub mod step;
pub mod triangles;

pub use around::{neighbours, survey_mesh};
pub use document::{Document, Line, Read};
pub use finished::{NotFinished, finished};
pub use format::{FORMATS, Format, Reader, Writer, format_of, read_document, write_document};
