//! Turning a part round, so that the other end is bent first.

use elbowroom_geometry::{Angle, BendPath, Centreline, Element, Frame};

use super::EditRefusal;
use crate::Path;

/// The path from the other end. Angles and rotations keep value and sign (G05); rotations shift by one,
/// as the last straight is now the first.
pub(super) fn reversed(path: &Path) -> Result<Path, EditRefusal> {
    let path = match path {
        Path::Vertices(path) => return Ok(Path::Vertices(path.reversed())),
        Path::Bends(path) => path,
    };
    let rows = path.rows();
    let end = Centreline::of(path).elements().last().map_or(*path.start(), Element::end);
    let start = Frame { tangent: -end.tangent, ..end };
    let turned = (0..rows.len()).rev().map(|index| {
        let behind = rows.get(index + 1);
        let mut row = rows[index];
        row.straight = behind.map_or(path.tail(), |next| next.straight);
        row.rotation = behind.map_or(Angle::ZERO, |next| next.rotation);
        row
    });
    let tail = rows.first().map_or(path.tail(), |row| row.straight);
    Ok(Path::Bends(BendPath::new(start, turned.collect(), tail)?))
}
