//! Setting the length of a straight.

use elbowroom_geometry::{BendPath, LARGEST_MM, Length, Refusal, VertexPath};

use super::changed::Changed;
use super::leg::{COINCIDENT_MM, Leg, tail_vertex};
use super::refusal::EditRefusal;
use super::vertices::Vertices;
use crate::model::end::End;
use crate::model::path::Path;

/// Makes a straight so long. In bend form everything beyond keeps its direction and moves along. In vertices one of the two
/// about it moves along their leg and all others stay: the first of `movable` for which there is such a place, towards the
/// start or the finish of the drawing. Where there is none, everything beyond moves along as in bend form.
pub(super) fn set(path: &Path, index: usize, length: Length, movable: &[End]) -> Result<Changed, EditRefusal> {
    if !(length.is_finite() && length.mm().abs() <= LARGEST_MM) {
        let field = format!("straight {}", index + 1);
        let most = Length::from_mm(LARGEST_MM);
        return Err(Refusal::out_of(field, length, -most, most).into());
    }
    let path = match path {
        Path::Vertices(path) => {
            let leg = Leg::of(path, index)?;
            let alone = movable.iter().find_map(|end| leg.with_one_moved(*end, length));
            Path::Vertices(alone.map_or_else(|| in_vertices(path, index, length), |vertices| vertices.path())?)
        }
        Path::Bends(path) => {
            let mut rows = path.rows().to_vec();
            let mut tail = path.tail();
            if index == rows.len() {
                tail = length;
            } else if let Some(row) = rows.get_mut(index) {
                row.straight = length;
            } else {
                return Err(EditRefusal::no_straight(index, rows.len() + 1));
            }
            Path::Bends(BendPath::new(*path.start(), rows, tail)?)
        }
    };
    Ok(Changed::in_place(path))
}

/// Moves every vertex beyond the straight along it.
fn in_vertices(path: &VertexPath, index: usize, length: Length) -> Result<VertexPath, EditRefusal> {
    let form = path.to_bend_form();
    let (rows, points) = (form.path.rows(), path.points());
    if index > rows.len() {
        return Err(EditRefusal::no_straight(index, rows.len() + 1));
    }
    let now = rows.get(index).map_or(form.path.tail(), |row| row.straight);
    let from = index.checked_sub(1).map_or(0, |bend| form.vertex_of_bend[bend]);
    let to = form.vertex_of_bend.get(index).copied().unwrap_or_else(|| tail_vertex(points, from));
    let leg = points.get(to).zip(points.get(from)).map(|(to, from)| to - from).unwrap_or_default();
    let leg_mm = leg.norm();
    if leg_mm < COINCIDENT_MM {
        let why = "the path has no direction yet; draw two vertices apart from one another first";
        return Err(EditRefusal::Impossible(why.into()));
    }
    let new_leg_mm = leg_mm + (length - now).mm();
    if new_leg_mm <= COINCIDENT_MM {
        let least_mm = (now.mm() - leg_mm).max(0.0);
        return Err(EditRefusal::VerticesMeet { straight: index, wanted: length, least: Length::from_mm(least_mm) });
    }
    let direction = leg / leg_mm;
    let mut vertices = Vertices::of(path);
    let shift = direction * (new_leg_mm - leg_mm);
    vertices.points[to..].iter_mut().for_each(|point| *point += shift);
    // Vertices on the straight itself stay where they are, unless the straight shrinks past one.
    let base = points[from];
    let outermost_mm = points[from + 1..to].iter().map(|point| (point - base).dot(&direction)).fold(0.0, f64::max);
    if outermost_mm >= new_leg_mm {
        for point in &mut vertices.points[from + 1..to] {
            *point = base + (*point - base) * (new_leg_mm / leg_mm);
        }
    }
    vertices.path()
}
