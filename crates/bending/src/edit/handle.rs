//! Dragging a handle.

use elbowroom_geometry::{HandleId, Point3};

use super::EditRefusal;
use super::vertices::change;
use crate::Path;

/// The path with a handle moved to a point.
pub(super) fn moved(path: &Path, handle: HandleId, to: Point3<f64>) -> Result<Path, EditRefusal> {
    let form = path.bend_form();
    let bends = form.path.rows().len();
    let index_of = |bend: usize| match path {
        Path::Vertices(_) => form.vertex_of_bend.get(bend).copied().ok_or_else(|| EditRefusal::no_bend(bend, bends)),
        Path::Bends(_) if bend < bends => Ok(bend + 1),
        Path::Bends(_) => Err(EditRefusal::no_bend(bend, bends)),
    };
    match handle {
        HandleId::LeadEnd => change(path, |vertices| vertices.shift(0, to)),
        HandleId::TailEnd => change(path, |vertices| {
            let last = vertices.points.len().saturating_sub(1);
            vertices.shift(last, to)
        }),
        HandleId::Vertex(bend) => {
            let index = index_of(bend)?;
            change(path, |vertices| vertices.shift(index, to))
        }
        HandleId::ArcStart(bend) | HandleId::ArcEnd(bend) => {
            index_of(bend)?;
            Err(EditRefusal::Impossible("the ends of a large bend cannot be dragged yet".into()))
        }
    }
}
