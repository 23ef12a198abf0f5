//! What is measured in space: from one landmark to another.

use elbowroom_bending::{End, NodeId, Part, Path, Solved, TubeId};
use elbowroom_geometry::measure::{Between, Datum, between};
use elbowroom_geometry::{HandleId, Point3, Vector3, handles};

use super::selection::Target;
use crate::Workbench;

/// The letters of the axes.
const AXES: [&str; 3] = ["x", "y", "z"];

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

impl Workbench {
    /// Every landmark there is, in the order of the drawing: points, middle lines, ends of other tubes that are shown, axes
    /// and floor.
    pub fn landmarks(&self) -> Vec<Named> {
        let (part, solved) = (self.part(), self.solved());
        let named = |landmark, name: String| Named { landmark, name };
        let mut list: Vec<Named> = Vec::new();
        for (target, _) in points(part, solved) {
            list.push(named(Landmark::Of(target.named(&solved.nodes)), called(target)));
        }
        for straight in 0..=solved.centreline.bends() {
            let target = Target::Straight(straight);
            list.push(named(Landmark::Of(target.named(&solved.nodes)), called(target)));
        }
        for (tube, _) in self.other_tubes() {
            for (end, word) in [(End::Start, "start"), (End::Finish, "finish")] {
                list.push(named(Landmark::End(tube.id, end), format!("{}: {word}", tube.name())));
            }
        }
        list.extend((0..3).map(|axis| named(Landmark::Axis(axis), format!("{} axis", AXES[axis]))));
        list.push(named(Landmark::Origin, "x, y, z = 0".to_owned()));
        list.push(named(Landmark::Floor, "floor".to_owned()));
        list
    }

    /// Between which two is measured.
    pub fn measured(&self) -> Measured {
        self.measured
    }

    /// What lies between the two; `None` where one of them is gone.
    pub fn between_measured(&self) -> Option<Between> {
        Some(between(&self.datum(self.measured.from)?, &self.datum(self.measured.to)?))
    }

    /// Where a landmark lies; `None` where it is gone.
    fn datum(&self, landmark: Landmark) -> Option<Datum> {
        let solved = self.solved();
        Some(match landmark {
            Landmark::Of(target) => {
                let target = target.counted(&solved.nodes)?;
                match target {
                    Target::Straight(straight) => {
                        let element = solved.centreline.straight(straight)?;
                        Datum::Line(element.start.origin, element.start.tangent)
                    }
                    _ => Datum::Point(points(self.part(), solved).into_iter().find(|(point, _)| is(*point, target))?.1),
                }
            }
            Landmark::End(tube, end) => {
                let line = &self.solved_tube(tube)?.centreline;
                let (first_mm, last_mm) = line.stations_mm();
                Datum::Point(line.point_at(if end == End::Start { first_mm } else { last_mm }))
            }
            Landmark::Axis(axis) => {
                Datum::Line(Point3::origin(), [Vector3::x(), Vector3::y(), Vector3::z()][axis.min(2)])
            }
            Landmark::Origin => Datum::Point(Point3::origin()),
            Landmark::Floor => Datum::Plane(Point3::new(0.0, 0.0, self.system().floor().mm()), Vector3::z()),
        })
    }

    /// Takes the two things that are selected for what is measured, or one of them and the floor.
    pub(crate) fn measure_selected(&mut self) {
        let chosen: Vec<Landmark> = self.selection_by_id().targets().iter().copied().map(Landmark::Of).collect();
        self.measured = match chosen[..] {
            [.., from, to] => Measured { from, to },
            [one] => Measured { from: one, to: Landmark::Floor },
            [] => self.measured,
        };
    }
}

/// Whether a point is what a target names: a bend names its vertex, or where its arc begins.
fn is(point: Target, target: Target) -> bool {
    match (point, target) {
        (Target::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend)), Target::Bend(named)) => bend == named,
        _ => point == target,
    }
}

/// The points of a part in the order of the drawing, mm: its handles, and the vertices that carry no bend.
fn points(part: &Part, solved: &Solved) -> Vec<(Target, Point3<f64>)> {
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
fn called(target: Target) -> String {
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
