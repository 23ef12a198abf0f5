//! Edits of bend rows.

use elbowroom_geometry::{BendPath, BendRow, HANDLE_LIMIT};

use super::EditRefusal;
use crate::Path;

/// Changes the rows of a path. A path held in vertex form comes back to it if all its bends can be drawn
/// that way, and else stays in bend form.
pub(super) fn change(
    path: &Path,
    change: impl FnOnce(&mut Vec<BendRow>) -> Result<(), EditRefusal>,
) -> Result<Path, EditRefusal> {
    let rebuilt = |path: &BendPath| {
        let mut rows = path.rows().to_vec();
        change(&mut rows)?;
        Ok::<_, EditRefusal>(BendPath::new(*path.start(), rows, path.tail())?)
    };
    match path {
        Path::Bends(path) => Ok(Path::Bends(rebuilt(path)?)),
        Path::Vertices(path) => Ok(drawn(rebuilt(&path.to_bend_form().path)?)),
    }
}

/// The path in vertices if all its bends are held by a vertex, and else in rows: beyond that angle the
/// vertex runs off too far to be drawn with.
pub(super) fn drawn(path: BendPath) -> Path {
    if path.rows().iter().any(|row| row.angle >= HANDLE_LIMIT) {
        return Path::Bends(path);
    }
    path.to_vertex_form().map_or(Path::Bends(path), Path::Vertices)
}

/// Bend `index` of the rows.
pub(super) fn bend_in(rows: &mut [BendRow], index: usize) -> Result<&mut BendRow, EditRefusal> {
    let bends = rows.len();
    rows.get_mut(index).ok_or_else(|| EditRefusal::no_bend(index, bends))
}

/// Inserts rows before bend `index`, or at the end.
pub(super) fn insert(rows: &mut Vec<BendRow>, index: usize, new: &[BendRow]) -> Result<(), EditRefusal> {
    if index > rows.len() {
        return Err(EditRefusal::no_bend(index, rows.len()));
    }
    rows.splice(index..index, new.iter().copied());
    Ok(())
}

/// Replaces rows from bend `index` on; rows beyond the last are added.
pub(super) fn replace(rows: &mut Vec<BendRow>, index: usize, new: &[BendRow]) -> Result<(), EditRefusal> {
    if index > rows.len() {
        return Err(EditRefusal::no_bend(index, rows.len()));
    }
    let end = rows.len().min(index + new.len());
    rows.splice(index..end, new.iter().copied());
    Ok(())
}
