//! What of a path an edit has set, so that it stays as it was asked for while the rest gives way.

use elbowroom_geometry::{HandleId, Point3};

use crate::model::edit::Edit;
use crate::model::nodes::NodeId;

/// A figure by the id of its bend, or of the straight's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Set {
    Straight(NodeId),
    Rotation(NodeId),
    Angle(NodeId),
    /// So many rows from the one before which, or with which, they were put.
    Rows {
        first: NodeId,
        before: bool,
        count: usize,
    },
    /// The straight behind the last bend, where rows were put at the end as well.
    Around(NodeId),
}

/// What an edit asks for.
#[derive(Clone, Debug, Default)]
pub(super) struct Asked {
    /// These figures were typed and stay.
    pub set: Vec<Set>,
    /// These places were put there.
    pub placed: Vec<(NodeId, Point3<f64>)>,
    /// Whether what lies on one side of it swings, so that the other side may do so instead.
    pub swings: bool,
}

impl Asked {
    /// What an edit asks for of the path; `None` for one that puts the whole elsewhere or says nothing of the path, with
    /// which nothing can give way.
    ///
    /// `ids` are those of the path after it, and `before` those that were there.
    pub fn of(edit: &Edit, ids: &[NodeId], before: &[NodeId]) -> Option<Self> {
        let set = |set: Set| Some(Self { set: vec![set], swings: true, ..Self::default() });
        let placed = |placed: Vec<(NodeId, Point3<f64>)>| Some(Self { placed, ..Self::default() });
        match edit {
            Edit::SetStraight(id, _) => set(Set::Straight(*id)),
            Edit::SetRotation(id, _) => set(Set::Rotation(*id)),
            Edit::SetAngle(id, _) => set(Set::Angle(*id)),
            Edit::SetClr(id, _) => set(Set::Around(*id)),
            Edit::SetEveryClr(_) => Some(Self { swings: true, ..Self::default() }),
            Edit::InsertRows(before, rows) => set(Set::Rows { first: *before, before: true, count: rows.len() }),
            Edit::ReplaceRows(first, rows) => set(Set::Rows { first: *first, before: false, count: rows.len() }),
            Edit::RemoveBends(which) | Edit::RemoveVertices(which) => {
                Some(Self { set: which.iter().map(|id| Set::Around(*id)).collect(), ..Self::default() })
            }
            Edit::InsertVertex(_, at, _) => {
                placed(ids.iter().find(|id| !before.contains(id)).map(|id| (*id, *at)).into_iter().collect())
            }
            Edit::MoveVertex(id, to) => placed(vec![(*id, *to)]),
            Edit::MoveVertices(moved) => placed(moved.clone()),
            Edit::MoveHandle(HandleId::Vertex(id), to) => placed(vec![(*id, *to)]),
            Edit::MoveHandle(HandleId::ArcStart(id) | HandleId::ArcEnd(id), _) => set(Set::Around(*id)),
            Edit::MoveHandle(HandleId::Start, to) => placed(vec![(*ids.first()?, *to)]),
            Edit::MoveHandle(HandleId::Finish, to) => placed(vec![(*ids.last()?, *to)]),
            _ => None,
        }
    }
}
