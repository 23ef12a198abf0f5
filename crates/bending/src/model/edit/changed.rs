//! What an edit makes of a path.

use crate::model::path::Path;

/// A path after an edit.
pub(super) struct Changed {
    /// The path.
    pub path: Path,
    /// For each of its places, which one it was in the path before; `None` for a new one.
    pub from: Vec<Option<usize>>,
}

impl Changed {
    /// A path whose places are all those of before.
    pub fn in_place(path: Path) -> Self {
        Self { from: (0..path.places()).map(Some).collect(), path }
    }
}
