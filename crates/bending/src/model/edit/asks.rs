//! What an edit asks for of a path, so that it stays so while the rest gives way.

use elbowroom_geometry::{HandleId, Point3};

use super::Edit;
use super::keeping::{Asked, Set};
use crate::model::nodes::NodeId;

impl Edit {
    /// What the edit asks for of the path; `None` for one that puts the whole elsewhere or says nothing of the path, with
    /// which nothing can give way.
    ///
    /// `ids` are those of the path after it, and `before` those that were there.
    pub(super) fn asks(&self, ids: &[NodeId], before: &[NodeId]) -> Option<Asked> {
        let set = |set: Set| Some(Asked { set: vec![set], swings: true, ..Asked::default() });
        let placed = |placed: Vec<(NodeId, Point3<f64>)>| Some(Asked { placed, ..Asked::default() });
        match self {
            Self::SetStraight(id, _) => set(Set::Straight(*id)),
            Self::SetRotation(id, _) => set(Set::Rotation(*id)),
            Self::SetAngle(id, _) => set(Set::Angle(*id)),
            Self::SetClr(id, _) => set(Set::Around(*id)),
            Self::SetEveryClr(_) => Some(Asked { swings: true, ..Asked::default() }),
            Self::InsertRows(before, rows) => set(Set::Rows { first: *before, before: true, count: rows.len() }),
            Self::ReplaceRows(first, rows) => set(Set::Rows { first: *first, before: false, count: rows.len() }),
            Self::RemoveBends(which) | Self::RemoveVertices(which) => {
                Some(Asked { set: which.iter().map(|id| Set::Around(*id)).collect(), ..Asked::default() })
            }
            Self::InsertVertex(_, at, _) => {
                placed(ids.iter().find(|id| !before.contains(id)).map(|id| (*id, *at)).into_iter().collect())
            }
            Self::MoveVertex(id, to) => placed(vec![(*id, *to)]),
            Self::MoveVertices(moved) => placed(moved.clone()),
            Self::MoveHandle(HandleId::Vertex(id), to) => placed(vec![(*id, *to)]),
            Self::MoveHandle(HandleId::ArcStart(id) | HandleId::ArcEnd(id), _) => set(Set::Around(*id)),
            Self::MoveHandle(HandleId::Start, to) => placed(vec![(*ids.first()?, *to)]),
            Self::MoveHandle(HandleId::Finish, to) => placed(vec![(*ids.last()?, *to)]),
            _ => None,
        }
    }
}
