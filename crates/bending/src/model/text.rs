//! Text that came from a file or from another program: shown as text, whatever stands in it.

use std::path::Path;

pub use elbowroom_geometry::units::{harmless, harmless_lines};

/// A file's name as it is shown.
pub fn shown_path(path: &Path) -> String {
    harmless(&path.to_string_lossy()).into_owned()
}

/// The text with a capital letter at its start.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The text as a sentence: a capital letter at its start and a full stop at its end, unless it ends in a stop of its own.
pub fn sentence(text: &str) -> String {
    capital(&stopped(text))
}

/// The text with a full stop at its end, unless it ends in a stop of its own. What begins with a file's name, which is
/// another file with a capital, is made a sentence by this.
pub fn stopped(text: &str) -> String {
    let stop = if text.is_empty() || text.ends_with(['.', '!', '?']) { "" } else { "." };
    format!("{text}{stop}")
}
