//! What of a path an edit has set, so that it stays as it was asked for while the rest gives way.

use elbowroom_geometry::Point3;

use crate::model::nodes::NodeId;

/// A figure by the id of its bend, or of the straight's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Set {
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
pub struct Asked {
    /// These figures were typed and stay.
    pub set: Vec<Set>,
    /// These places were put there.
    pub placed: Vec<(NodeId, Point3<f64>)>,
    /// Whether what lies on one side of it swings, so that the other side may do so instead.
    pub swings: bool,
}
