//! Edits of bend rows.

use elbowroom_geometry::{BendPath, BendRow, HANDLE_LIMIT, Point3, VertexPath};

use super::changed::Changed;
use super::refusal::EditRefusal;
use super::vertices::{as_rows, through};
use crate::model::path::Path;

/// Rows while they are being changed.
pub(super) struct Rows {
    /// The rows.
    pub rows: Vec<BendRow>,
    /// For each row, which one it was before; `None` for a new one.
    from: Vec<Option<usize>>,
}

/// Changes the rows of a path. A path held in vertex form comes back to it if all its bends can be drawn
/// that way, and else stays in bend form.
pub(super) fn change(
    path: &Path,
    change: impl FnOnce(&mut Rows) -> Result<(), EditRefusal>,
) -> Result<Changed, EditRefusal> {
    let rebuilt = |path: &BendPath| {
        let from = (0..path.rows().len()).map(Some).collect();
        let mut rows = Rows { rows: path.rows().to_vec(), from };
        change(&mut rows)?;
        Ok::<_, EditRefusal>((BendPath::new(*path.start(), rows.rows, path.tail())?, rows.from))
    };
    // Each row lies at the place after its number, between the two ends.
    let places = |from: Vec<Option<usize>>, rows: usize| -> Vec<Option<usize>> {
        let rows_from = from.into_iter().map(|row| row.map(|row| row + 1));
        std::iter::once(Some(0)).chain(rows_from).chain([Some(rows + 1)]).collect()
    };
    match path {
        Path::Bends(path) => {
            let (after, from) = rebuilt(path)?;
            Ok(Changed { from: places(from, path.rows().len()), path: Path::Bends(after) })
        }
        Path::Vertices(path) => {
            let form = path.to_bend_form();
            let (after, from) = rebuilt(&form.path)?;
            let were = as_rows(path.points().len(), &form.vertex_of_bend);
            let from = through(&were, &places(from, form.path.rows().len()));
            Ok(match drawn(after) {
                Path::Vertices(corners) => with_what_lay_on_its_legs(path, &corners, from)?,
                rows @ Path::Bends(_) => Changed { path: rows, from },
            })
        }
    }
}

/// A path of corners alone, with the vertices of before that carry no bend, each at its share of the leg it lay on. `from`
/// says which vertex each corner was; where something came between two of them their leg is another.
fn with_what_lay_on_its_legs(
    before: &VertexPath,
    corners: &VertexPath,
    from: Vec<Option<usize>>,
) -> Result<Changed, EditRefusal> {
    let (old, new) = (before.points(), corners.points());
    let radius = |path: &VertexPath, at: usize| at.checked_sub(1).and_then(|at| path.clr().get(at)).copied();
    let last = new.len().saturating_sub(1);
    let (mut points, mut clr, mut came_from) = (Vec::new(), Vec::new(), Vec::new());
    for (corner, at) in new.iter().enumerate() {
        points.push(*at);
        came_from.push(from[corner]);
        if corner > 0 && corner < last {
            clr.extend(radius(corners, corner));
        }
        let leg = from[corner].zip(from.get(corner + 1).copied().flatten());
        let Some((first, second)) = leg.filter(|(first, second)| first + 1 < *second) else { continue };
        for vertex in first + 1..second {
            points.push(along(&old[vertex], [&old[first], &old[second]], [at, &new[corner + 1]]));
            clr.extend(radius(before, vertex));
            came_from.push(Some(vertex));
        }
    }
    Ok(Changed { path: Path::Vertices(VertexPath::new(points, clr)?), from: came_from })
}

/// Where a point that lay on a leg lies on what has become of it: at the same share of its length.
pub(super) fn along(point: &Point3<f64>, was: [&Point3<f64>; 2], is: [&Point3<f64>; 2]) -> Point3<f64> {
    let (leg, now) = (was[1] - was[0], is[1] - is[0]);
    if leg == now {
        return point + (is[0] - was[0]);
    }
    let length_squared = leg.norm_squared();
    let share = if length_squared > 0.0 { (point - was[0]).dot(&leg) / length_squared } else { 0.0 };
    is[0] + now * share
}

/// The path in vertices if all its bends are held by a vertex, and else in rows: beyond that angle the
/// vertex runs off too far to be drawn with. Every row becomes one vertex.
pub(super) fn drawn(path: BendPath) -> Path {
    if path.rows().iter().any(|row| row.angle >= HANDLE_LIMIT) {
        return Path::Bends(path);
    }
    path.to_vertex_form().map_or(Path::Bends(path), Path::Vertices)
}

/// Bend `index` of the rows.
pub(super) fn bend_in(rows: &mut Rows, index: usize) -> Result<&mut BendRow, EditRefusal> {
    let bends = rows.rows.len();
    rows.rows.get_mut(index).ok_or_else(|| EditRefusal::no_bend(index, bends))
}

/// Inserts rows before bend `index`, or at the end.
pub(super) fn insert(rows: &mut Rows, index: usize, new: &[BendRow]) -> Result<(), EditRefusal> {
    if index > rows.rows.len() {
        return Err(EditRefusal::no_bend(index, rows.rows.len()));
    }
    rows.rows.splice(index..index, new.iter().copied());
    rows.from.splice(index..index, std::iter::repeat_n(None, new.len()));
    Ok(())
}

/// Replaces rows from bend `index` on; rows beyond the last are added. Those replaced stay who they are.
pub(super) fn replace(rows: &mut Rows, index: usize, new: &[BendRow]) -> Result<(), EditRefusal> {
    if index > rows.rows.len() {
        return Err(EditRefusal::no_bend(index, rows.rows.len()));
    }
    let end = rows.rows.len().min(index + new.len());
    rows.rows.splice(index..end, new.iter().copied());
    rows.from.extend(std::iter::repeat_n(None, rows.rows.len() - rows.from.len()));
    Ok(())
}
