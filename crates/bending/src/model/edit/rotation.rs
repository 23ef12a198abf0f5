//! Setting the rotation before a bend.

use elbowroom_geometry::{Angle, Refusal, VertexPath};
use nalgebra::{Rotation3, Unit};

use super::changed::Changed;
use super::refusal::EditRefusal;
use super::rows;
use super::vertices::Vertices;
use crate::model::path::Path;

/// Sets the rotation before a bend; everything beyond turns along. For the first bend, which has none,
/// it turns the whole part about its first leg.
pub(super) fn set(path: &Path, bend: usize, rotation: Angle) -> Result<Changed, EditRefusal> {
    if !rotation.is_finite() {
        let field = format!("the rotation of bend {}", bend + 1);
        return Err(Refusal::new(field, rotation.degrees().to_string(), "a number of degrees").into());
    }
    match path {
        Path::Vertices(path) => Ok(Changed::in_place(Path::Vertices(in_vertices(path, bend, rotation)?))),
        Path::Bends(_) => rows::change(path, |rows| {
            rows::bend_in(rows, bend)?.rotation = rotation;
            Ok(())
        }),
    }
}

/// Turns every vertex beyond the bend about the leg before it, so that vertices on a line stay.
fn in_vertices(path: &VertexPath, bend: usize, rotation: Angle) -> Result<VertexPath, EditRefusal> {
    let form = path.to_bend_form();
    let rows = form.path.rows();
    let row = rows.get(bend).ok_or_else(|| EditRefusal::no_bend(bend, rows.len()))?;
    let vertex = form.vertex_of_bend[bend];
    let before = bend.checked_sub(1).map_or(0, |before| form.vertex_of_bend[before]);
    let mut vertices = Vertices::of(path);
    let pivot = vertices.points[vertex];
    // Positive is right-handed about the direction of travel (G04).
    let axis = Unit::new_normalize(pivot - vertices.points[before]);
    let turn = Rotation3::from_axis_angle(&axis, (rotation - row.rotation).radians());
    vertices.points[vertex + 1..].iter_mut().for_each(|point| *point = pivot + turn * (*point - pivot));
    vertices.path()
}
