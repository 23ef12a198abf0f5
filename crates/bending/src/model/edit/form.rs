//! Holding a path in its other form.

use super::changed::Changed;
use super::refusal::EditRefusal;
use super::vertices::as_rows;
use crate::model::path::Path;

/// The path in its other form: each bend is the vertex that it sits at.
pub(super) fn changed(path: &Path) -> Result<Changed, EditRefusal> {
    match path {
        Path::Vertices(path) => {
            let form = path.to_bend_form();
            if !form.problems.is_empty() {
                let why = "this drawing has no bend rows until its vertices are put right";
                return Err(EditRefusal::Impossible(why.into()));
            }
            let from = as_rows(path.points().len(), &form.vertex_of_bend);
            Ok(Changed { path: Path::Bends(form.path), from })
        }
        Path::Bends(path) => {
            let vertices = path.to_vertex_form().map_err(|none| EditRefusal::Impossible(none.to_string()))?;
            Ok(Changed::in_place(Path::Vertices(vertices)))
        }
    }
}
