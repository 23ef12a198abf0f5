//! Edits of vertices, on paths held in either form.

use elbowroom_geometry::{BendPath, BendRow, Length, Point3, VertexPath};

use super::changed::Changed;
use super::refusal::EditRefusal;
use crate::model::path::Path;

/// Vertices and radii while they are being changed.
pub(super) struct Vertices {
    /// The vertices, mm.
    pub points: Vec<Point3<f64>>,
    /// The radii of the vertices between the ends.
    pub clr: Vec<Length>,
    /// For each vertex, which one it was before; `None` for a new one.
    from: Vec<Option<usize>>,
}

impl Vertices {
    pub fn of(path: &VertexPath) -> Self {
        let from = (0..path.points().len()).map(Some).collect();
        Self { points: path.points().to_vec(), clr: path.clr().to_vec(), from }
    }

    /// Puts a vertex in at `index`.
    pub fn insert(&mut self, index: usize, at: Point3<f64>) {
        self.points.insert(index, at);
        self.from.insert(index, None);
    }

    /// The finished path.
    pub fn path(self) -> Result<VertexPath, EditRefusal> {
        Ok(VertexPath::new(self.points, self.clr)?)
    }

    /// Moves one vertex.
    pub fn shift(&mut self, index: usize, to: Point3<f64>) -> Result<(), EditRefusal> {
        let vertices = self.points.len();
        *self.points.get_mut(index).ok_or_else(|| EditRefusal::no_vertex(index, vertices))? = to;
        Ok(())
    }

    /// Removes vertices; where an end goes, its neighbour becomes the end and loses its radius.
    pub fn remove(&mut self, indices: &[usize]) -> Result<(), EditRefusal> {
        let vertices = self.points.len();
        let mut goes = vec![false; vertices];
        for &index in indices {
            *goes.get_mut(index).ok_or_else(|| EditRefusal::no_vertex(index, vertices))? = true;
        }
        let mut radius_of: Vec<Length> = Vec::with_capacity(vertices);
        for index in 0..vertices {
            radius_of.push(index.checked_sub(1).and_then(|at| self.clr.get(at)).copied().unwrap_or_default());
        }
        let kept: Vec<usize> = (0..vertices).filter(|&index| !goes[index]).collect();
        if kept.len() < vertices.min(2) {
            return Err(EditRefusal::Impossible("a tube needs two vertices, so the last two stay".into()));
        }
        self.points = kept.iter().map(|&index| self.points[index]).collect();
        self.from = kept.iter().map(|&index| self.from[index]).collect();
        self.clr = kept.iter().skip(1).take(kept.len().saturating_sub(2)).map(|&index| radius_of[index]).collect();
        Ok(())
    }
}

/// Changes the vertices of a path; one held in bend form stays in it.
pub(super) fn change(
    path: &Path,
    change: impl FnOnce(&mut Vertices) -> Result<(), EditRefusal>,
) -> Result<Changed, EditRefusal> {
    match path {
        Path::Vertices(path) => {
            let mut vertices = Vertices::of(path);
            change(&mut vertices)?;
            let from = std::mem::take(&mut vertices.from);
            Ok(Changed { path: Path::Vertices(vertices.path()?), from })
        }
        Path::Bends(path) => {
            let vertices = path.to_vertex_form().map_err(|none| EditRefusal::Impossible(none.to_string()))?;
            let mut vertices = Vertices::of(&vertices);
            change(&mut vertices)?;
            let from = std::mem::take(&mut vertices.from);
            let form = vertices.path()?.to_bend_form();
            // Each row is the vertex that it sits at; what carries no bend is no row.
            let from = through(&from, &as_rows(from.len(), &form.vertex_of_bend));
            Ok(Changed { path: Path::Bends(like(form.path, path)?), from })
        }
    }
}

/// For each place of a path in rows, the vertex that it was: both ends, and where each bend sits.
pub(super) fn as_rows(vertices: usize, vertex_of_bend: &[usize]) -> Vec<Option<usize>> {
    let last = vertices.checked_sub(1);
    let first = last.map(|_| 0);
    std::iter::once(first).chain(vertex_of_bend.iter().copied().map(Some)).chain([last]).collect()
}

/// Where places came from that went through two changes.
pub(super) fn through(first: &[Option<usize>], second: &[Option<usize>]) -> Vec<Option<usize>> {
    second.iter().map(|at| at.and_then(|at| first.get(at).copied().flatten())).collect()
}

/// Lengths and angles this near to those before the edit are theirs, mm and radians: the rounding of
/// going to vertices and back.
const ROUNDING: f64 = 1e-9;

/// The path with every number that the edit has left alone restored to the bit, so that a typed 90°
/// stays 90° when another bend is moved.
fn like(path: BendPath, before: &BendPath) -> Result<BendPath, EditRefusal> {
    let old = before.rows();
    let mut rows = path.rows().to_vec();
    // Rows ahead of the edit keep their place from the front, rows behind it from the back.
    let shift = old.len() as isize - rows.len() as isize;
    for (index, row) in rows.iter_mut().enumerate() {
        for candidate in [Some(index), index.checked_add_signed(shift)] {
            if let Some(was) = candidate.and_then(|at| old.get(at)) {
                settle(row, was);
            }
        }
    }
    let tail_is_same = (path.tail() - before.tail()).mm().abs() < ROUNDING;
    let tail = if tail_is_same { before.tail() } else { path.tail() };
    let (start, was) = (path.start(), before.start());
    let start_is_same = (start.origin - was.origin).norm() < ROUNDING
        && (start.tangent - was.tangent).norm() < ROUNDING
        && (start.normal - was.normal).norm() < ROUNDING;
    Ok(BendPath::new(if start_is_same { *was } else { *start }, rows, tail)?)
}

fn settle(row: &mut BendRow, was: &BendRow) {
    if (row.straight - was.straight).mm().abs() < ROUNDING {
        row.straight = was.straight;
    }
    if (row.rotation - was.rotation).radians().abs() < ROUNDING {
        row.rotation = was.rotation;
    }
    if (row.angle - was.angle).radians().abs() < ROUNDING {
        row.angle = was.angle;
    }
}
