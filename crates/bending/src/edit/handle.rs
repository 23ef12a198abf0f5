//! Dragging a handle.

use elbowroom_geometry::{HandleId, Point3, VertexPath, drag_handle};

use super::EditRefusal;
use super::vertices::change;
use crate::Path;

/// The path with a handle moved to a point.
pub(super) fn moved(path: &Path, handle: HandleId, to: Point3<f64>) -> Result<Path, EditRefusal> {
    match path {
        Path::Vertices(vertices) => in_vertices(path, vertices, handle, to),
        Path::Bends(bends) => {
            known(handle, bends.rows().len())?;
            Ok(Path::Bends(drag_handle(bends, handle, to)?))
        }
    }
}

/// In vertex form every handle is a vertex, but for the two on the arc of a large bend.
fn in_vertices(path: &Path, vertices: &VertexPath, handle: HandleId, to: Point3<f64>) -> Result<Path, EditRefusal> {
    let form = vertices.to_bend_form();
    known(handle, form.path.rows().len())?;
    let index = match handle {
        HandleId::LeadEnd => 0,
        HandleId::TailEnd => vertices.points().len().saturating_sub(1),
        HandleId::Vertex(bend) => form.vertex_of_bend[bend],
        HandleId::ArcStart(_) | HandleId::ArcEnd(_) => {
            let dragged = drag_handle(&form.path, handle, to)?;
            // A bend dragged to half a turn and beyond is held by the bend form alone.
            return Ok(dragged.to_vertex_form().map_or_else(|_| Path::Bends(dragged), Path::Vertices));
        }
    };
    change(path, |vertices| vertices.shift(index, to))
}

/// Refuses a handle on a bend that is not there.
fn known(handle: HandleId, bends: usize) -> Result<(), EditRefusal> {
    match handle.bend() {
        Some(bend) if bend >= bends => Err(EditRefusal::no_bend(bend, bends)),
        _ => Ok(()),
    }
}
