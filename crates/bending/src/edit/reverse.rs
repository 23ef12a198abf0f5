//! Turning a part round, so that the other end is bent first.

use crate::Path;

/// The path from the other end.
pub(super) fn reversed(path: &Path) -> Path {
    match path {
        Path::Vertices(path) => Path::Vertices(path.reversed()),
        Path::Bends(path) => Path::Bends(path.reversed()),
    }
}
