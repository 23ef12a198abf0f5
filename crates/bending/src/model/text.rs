//! Text that came from a file or from another program: shown as text, whatever stands in it.

use std::path::Path;

pub use elbowroom_geometry::units::{harmless, harmless_lines};

/// A file's name as it is shown.
pub fn shown_path(path: &Path) -> String {
    harmless(&path.to_string_lossy()).into_owned()
}
