//! What an edit leaves where it is: held ends and vertices, and the side that stays where a row is changed.

mod asked;
mod places;
mod ways;

use elbowroom_geometry::{BendPath, Centreline, Frame, VertexPath};
use nalgebra::{Isometry3, Rotation3, Translation3, UnitQuaternion};

use super::refusal::EditRefusal;
use crate::model::end::End;
use crate::model::nodes::Nodes;
use crate::model::part::Part;
use crate::model::path::Path;
pub(super) use asked::{Asked, Set};
use places::{Places, SAME_MM, SAME_RAD};

/// The path that an edit has led to, which asked for this, with all that is held where it was: what is free has moved, the least that does it.
/// Where nothing is held, the side stays that a person has chosen.
pub(super) fn kept(part: &Part, asked: Option<Asked>, path: Path, nodes: &Nodes) -> Result<Path, EditRefusal> {
    let ids = nodes.ids(path.places());
    if part.keep.held().is_empty() {
        return match (part.keep.side, &asked) {
            (End::Finish, Some(asked)) if asked.swings => Ok(finish_stays(part, path, nodes)),
            _ => Ok(path),
        };
    }
    let (before, after) = (Places::of(part), Places::along(&path, &ids));
    let mut moved = Vec::new();
    for (id, hold) in part.keep.held() {
        let there = before.lie(*id).ok_or_else(|| EditRefusal::Held(before.name(*id)))?;
        let Some(now) = after.lie(*id) else { return Err(EditRefusal::Held(before.name(*id))) };
        if !there.is_kept(&now, *hold) {
            moved.push(before.name(*id));
        }
    }
    if moved.is_empty() {
        return Ok(path);
    }
    let held = |moved: Vec<String>| EditRefusal::Held(moved.join(" and "));
    let Some(asked) = asked else { return Err(held(moved)) };
    // Who moves a held place by hand does not mean it to come back.
    let by_hand = asked.placed.iter().find(|(id, _)| part.keep.of(*id).place);
    if let Some((id, _)) = by_hand {
        return Err(EditRefusal::Held(before.name(*id)));
    }
    ways::found(part, &asked, &path, &ids).ok_or_else(|| EditRefusal::NoWay(moved.join(" and ")))
}

/// The path moved as a whole so that what lies towards its finish stays.
fn finish_stays(part: &Part, path: Path, nodes: &Nodes) -> Path {
    let (before, after) = (part.path.bend_form(), path.bend_form());
    let (was, is) = (Centreline::of(&before.path).end(), Centreline::of(&after.path).end());
    let last = |form: &elbowroom_geometry::BendForm, ids: &[crate::NodeId], path: &Path| match path {
        Path::Vertices(_) => form.vertex_of_bend.last().and_then(|at| ids.get(*at).copied()),
        Path::Bends(rows) => ids.get(rows.rows().len()).copied(),
    };
    let same_last = last(&before, &part.nodes.ids(part.path.places()), &part.path)
        == last(&after, &nodes.ids(path.places()), &path);
    let Some(by) = carried(&is, &was, same_last) else { return path };
    moved(path, &by)
}

/// The motion that carries one frame to another: with its plane, or by the smallest turn where the planes are those of
/// different bends.
fn carried(from: &Frame, to: &Frame, with_plane: bool) -> Option<Isometry3<f64>> {
    let turn = if with_plane {
        let axes = |frame: &Frame| nalgebra::Matrix3::from_columns(&[frame.tangent, frame.normal, frame.binormal()]);
        UnitQuaternion::from_rotation_matrix(&Rotation3::from_matrix_unchecked(axes(to) * axes(from).transpose()))
    } else {
        UnitQuaternion::rotation_between(&from.tangent, &to.tangent)?
    };
    let by = to.origin - turn * from.origin;
    Some(Isometry3::from_parts(Translation3::from(by), turn))
}

/// A path moved as a whole. One that would move by no more than rounding stays.
fn moved(path: Path, by: &Isometry3<f64>) -> Path {
    if by.translation.vector.norm() < SAME_MM && by.rotation.angle() < SAME_RAD {
        return path;
    }
    let same = path.clone();
    let there = match path {
        Path::Bends(path) => {
            let start = path.start();
            let frame = Frame::along(by * start.origin, by * start.tangent, by * start.normal);
            frame.and_then(|frame| BendPath::new(frame, path.rows().to_vec(), path.tail()).ok()).map(Path::Bends)
        }
        Path::Vertices(path) => {
            let points = path.points().iter().map(|point| by * point).collect();
            VertexPath::new(points, path.clr().to_vec()).ok().map(Path::Vertices)
        }
    };
    there.unwrap_or(same)
}
