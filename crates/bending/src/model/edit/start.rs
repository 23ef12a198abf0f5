//! Moving the whole part.

use elbowroom_geometry::{BendPath, Frame, Point3};

use super::refusal::EditRefusal;
use super::vertices::Vertices;
use crate::model::path::Path;

/// The path moved so that its lead end lies at a point.
pub(super) fn moved(path: &Path, to: Point3<f64>) -> Result<Path, EditRefusal> {
    match path {
        Path::Vertices(path) => {
            let mut vertices = Vertices::of(path);
            let Some(from) = vertices.points.first().copied() else {
                return Err(EditRefusal::no_vertex(0, 0));
            };
            // The first one takes the point itself, so that it lies there to the bit.
            vertices.points.iter_mut().for_each(|point| *point = to + (*point - from));
            Ok(Path::Vertices(vertices.path()?))
        }
        Path::Bends(path) => {
            let start = Frame { origin: to, ..*path.start() };
            Ok(Path::Bends(BendPath::new(start, path.rows().to_vec(), path.tail())?))
        }
    }
}
