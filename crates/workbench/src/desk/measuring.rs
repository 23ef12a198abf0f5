//! What is measured in space: from one landmark to another.

use elbowroom_bending::{End, NodeId, Part, Path, Solved, TubeId};
use elbowroom_geometry::{HandleId, Point3, handles};

use super::selection::Target;

/// The letters of the axes.
pub(crate) const AXES: [&str; 3] = ["x", "y", "z"];

/// Something that can be measured from or to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Landmark {
    /// An end, a vertex, or where the arc of a large bend begins or ends, of the tube that is worked on; a straight stands
    /// for its middle line, a bend for its vertex.
    Of(Target<NodeId>),
    /// An end of another tube.
    End(TubeId, End),
    /// An axis of the drawing through x, y, z = 0, counted from 0.
    Axis(usize),
    /// The point x, y, z = 0.
    Origin,
    /// The floor.
    Floor,
}

/// A landmark with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// Which one.
    pub landmark: Landmark,
    /// What it is called, such as `bend 3` or `middle line of straight 2`.
    pub name: String,
}

/// Between which two is measured; the start and the finish until something else is chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// From this one.
    pub from: Landmark,
    /// To this one.
    pub to: Landmark,
}

impl Default for Measured {
    fn default() -> Self {
        let end = |handle| Landmark::Of(Target::Handle(handle));
        Self { from: end(HandleId::Start), to: end(HandleId::Finish) }
    }
}

/// Whether a point is what a target names: a bend names its vertex, or where its arc begins.
pub(crate) fn is(point: Target, target: Target) -> bool {
    match (point, target) {
        (Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend)), Target::Bend(named)) => bend == named,
        _ => point == target,
    }
}

/// The points of a part in the order of the drawing, mm: its handles, and the vertices that carry no bend.
pub(crate) fn points(part: &Part, solved: &Solved) -> Vec<(Target, Point3<f64>)> {
    let of_handles = handles(&solved.form.path).into_iter().map(|handle| (Target::Handle(handle.id), handle.point));
    let mut points: Vec<_> = of_handles.collect();
    if let Path::Vertices(path) = &part.path {
        let inner = 1..path.points().len().saturating_sub(1);
        let plain = inner.filter(|vertex| solved.form.vertex_of_bend.binary_search(vertex).is_err());
        points.extend(plain.map(|vertex| (Target::Vertex(vertex), path.points()[vertex])));
    }
    points.retain(|(_, at)| at.iter().all(|coordinate| coordinate.is_finite()));
    points
}

/// What a landmark of the tube that is worked on is called.
pub(crate) fn called(target: Target) -> String {
    match target {
        Target::Handle(HandleId::Start) => "start".to_owned(),
        Target::Handle(HandleId::Finish) => "finish".to_owned(),
        Target::Handle(HandleId::Vertex(bend)) | Target::Bend(bend) => format!("bend {}", bend + 1),
        Target::Handle(HandleId::ArcStart(bend)) => format!("bend {} begins", bend + 1),
        Target::Handle(HandleId::ArcEnd(bend)) => format!("bend {} ends", bend + 1),
        Target::Vertex(vertex) => format!("vertex {}", vertex + 1),
        Target::Straight(straight) => format!("middle line of straight {}", straight + 1),
    }
}
