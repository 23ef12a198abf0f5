//! Setting radii.

use elbowroom_geometry::Length;

use super::changed::Changed;
use super::refusal::EditRefusal;
use super::rows;
use super::vertices::Vertices;
use crate::model::path::Path;

/// Sets the radius of one bend.
pub(super) fn set(path: &Path, bend: usize, clr: Length) -> Result<Changed, EditRefusal> {
    match path {
        Path::Vertices(points) => {
            let form = points.to_bend_form();
            let vertex = form.vertex_of_bend.get(bend);
            let vertex = *vertex.ok_or_else(|| EditRefusal::no_bend(bend, form.vertex_of_bend.len()))?;
            let mut vertices = Vertices::of(points);
            vertices.clr[vertex - 1] = clr;
            Ok(Changed::in_place(Path::Vertices(vertices.path()?)))
        }
        Path::Bends(_) => rows::change(path, |rows| {
            rows::bend_in(rows, bend)?.clr = clr;
            Ok(())
        }),
    }
}

/// Sets the radius of every bend, and of every vertex that may become one.
pub(super) fn set_every(path: &Path, clr: Length) -> Result<Changed, EditRefusal> {
    match path {
        Path::Vertices(points) => {
            let mut vertices = Vertices::of(points);
            vertices.clr.fill(clr);
            Ok(Changed::in_place(Path::Vertices(vertices.path()?)))
        }
        Path::Bends(_) => rows::change(path, |rows| {
            rows.rows.iter_mut().for_each(|row| row.clr = clr);
            Ok(())
        }),
    }
}
