//! Dragging a handle.

use elbowroom_geometry::{HandleId, Point3, drag_handle};

use super::changed::Changed;
use super::refusal::EditRefusal;
use super::rows::drawn;
use super::vertices::{as_rows, change};
use crate::model::path::Path;

/// The path with a handle moved to a point.
///
/// In vertex form the vertex moves and nothing else. In bend form, and for the tangent points of a large
/// bend in either form, the rules of [`drag_handle`] hold.
pub(super) fn moved(path: &Path, handle: HandleId, to: Point3<f64>) -> Result<Changed, EditRefusal> {
    let form = path.bend_form();
    let bends = form.path.rows().len();
    if let Some(bend) = handle.bend().filter(|&bend| bend >= bends) {
        return Err(EditRefusal::no_bend(bend, bends));
    }
    let points = match path {
        Path::Bends(path) => return Ok(Changed::in_place(Path::Bends(drag_handle(path, handle, to)?))),
        Path::Vertices(path) => path.points().len(),
    };
    match handle {
        HandleId::Start => change(path, |vertices| vertices.shift(0, to)),
        HandleId::Finish => change(path, |vertices| {
            let last = vertices.points.len().saturating_sub(1);
            vertices.shift(last, to)
        }),
        HandleId::Vertex(bend) => change(path, |vertices| vertices.shift(form.vertex_of_bend[bend], to)),
        HandleId::ArcStart(_) | HandleId::ArcEnd(_) => {
            let from = as_rows(points, &form.vertex_of_bend);
            Ok(Changed { path: drawn(drag_handle(&form.path, handle, to)?), from })
        }
    }
}
