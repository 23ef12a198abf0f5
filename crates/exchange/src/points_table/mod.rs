//! The points table: a centreline as comma-separated text, one vertex a line.
//!
//! The header is exactly [`HEADER`]. Each line holds a vertex in mm; the last column is the centreline
//! radius at that vertex, mm, and is empty on the first and the last line, which are the tube's ends.
//!
//! ```text
//! x_mm,y_mm,z_mm,clr_mm
//! 0,0,0,
//! 250,0,0,90.5
//! 250,310,40,
//! ```

mod read;
mod write;

pub use read::read;
pub use write::{CannotBeTable, of_part, of_path, write};

/// The first line of a points table.
pub const HEADER: &str = "x_mm,y_mm,z_mm,clr_mm";

/// The names of the columns, in order.
pub(crate) const COLUMNS: [&str; 4] = ["x_mm", "y_mm", "z_mm", "clr_mm"];
