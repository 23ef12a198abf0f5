//! The path as points in space: both ends and each bend, the ones that may be typed with the way they move.

use elbowroom_bending::first_off::points::BY_ARC_ENDS_FROM;
use elbowroom_bending::{Edit, Numbering, Part, Path};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{BendForm, BendPath, HANDLE_LIMIT, HandleId, Length, Point3, Vector3};
use elbowroom_workbench::Target;

use super::{CellError, Column};

/// A direction that changes a coordinate by less than this share of its length does not move it, no unit.
const LEAST_SHARE: f64 = 1e-3;

/// What a point is. Bends and vertices are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spot {
    /// An end, the vertex of a bend, or where the arc of a bend of 150° or more begins or ends.
    Handle(HandleId),
    /// A vertex of a path in vertex form that carries no bend.
    Vertex(usize),
}

impl Spot {
    /// What it is called.
    pub fn name(self) -> String {
        match self {
            Self::Handle(HandleId::Start) => "start".to_owned(),
            Self::Handle(HandleId::Finish) => "finish".to_owned(),
            Self::Handle(HandleId::Vertex(bend)) => format!("bend {}", bend + 1),
            Self::Handle(HandleId::ArcStart(bend)) => format!("bend {} begins", bend + 1),
            Self::Handle(HandleId::ArcEnd(bend)) => format!("bend {} ends", bend + 1),
            Self::Vertex(vertex) => format!("vertex {}", vertex + 1),
        }
    }

    /// What the table calls it at the left, where there is little room.
    pub fn short(self) -> String {
        match self {
            Self::Handle(HandleId::Vertex(bend)) => (bend + 1).to_string(),
            Self::Handle(HandleId::ArcStart(bend)) => format!("{} in", bend + 1),
            Self::Handle(HandleId::ArcEnd(bend)) => format!("{} out", bend + 1),
            Self::Handle(HandleId::Start | HandleId::Finish) => self.name(),
            Self::Vertex(_) => "0°".to_owned(),
        }
    }

    /// The bend that it belongs to.
    pub fn bend(self) -> Option<usize> {
        match self {
            Self::Handle(handle) => handle.bend(),
            Self::Vertex(_) => None,
        }
    }

    /// What a click on its row selects.
    pub fn target(self) -> Target {
        match (self, self.bend()) {
            (_, Some(bend)) => Target::Bend(bend),
            (Self::Handle(handle), None) => Target::Handle(handle),
            (Self::Vertex(vertex), None) => Target::Vertex(vertex),
        }
    }
}

/// How a point can be moved by typing a coordinate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Moves {
    /// Anywhere.
    Freely,
    /// Along a unit direction alone.
    Along(Vector3<f64>),
    /// Not by itself: radius and angle put it there.
    Not,
}

/// A point of the path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PathPoint {
    /// What it is.
    pub spot: Spot,
    /// Where it is in the coordinates of the drawing, mm.
    pub at: Point3<f64>,
    /// How it moves.
    pub moves: Moves,
    /// The radius of the bend that it stands for; none for the ends and for where an arc ends.
    pub clr: Option<Length>,
}

/// The points of a part, from start to finish. `form` is its bend form.
pub fn points(part: &Part, form: &BendForm) -> Vec<PathPoint> {
    let of_rows = of_rows(&form.path, matches!(part.path, Path::Bends(_)));
    let Path::Vertices(drawn) = &part.path else { return of_rows };
    // As drawn, to the bit, and with the vertices that no row tells of.
    let drawn = drawn.points();
    let mut points = Vec::with_capacity(drawn.len() + 2);
    let mut next = 0;
    for point in of_rows {
        let vertex = match point.spot {
            Spot::Handle(HandleId::Start) => Some(0),
            Spot::Handle(HandleId::Finish) => drawn.len().checked_sub(1),
            Spot::Handle(HandleId::Vertex(bend) | HandleId::ArcStart(bend)) => form.vertex_of_bend.get(bend).copied(),
            _ => None,
        };
        let Some((vertex, at)) = vertex.and_then(|vertex| Some((vertex, *drawn.get(vertex)?))) else {
            points.push(point);
            continue;
        };
        let plain =
            |vertex| PathPoint { spot: Spot::Vertex(vertex), at: drawn[vertex], moves: Moves::Freely, clr: None };
        points.extend((next..vertex).map(plain));
        next = vertex + 1;
        let begins = matches!(point.spot, Spot::Handle(HandleId::ArcStart(_)));
        points.push(if begins { point } else { PathPoint { at, ..point } });
    }
    points
}

fn of_rows(path: &BendPath, held_in_rows: bool) -> Vec<PathPoint> {
    let mut points = Vec::with_capacity(path.rows().len() + 4);
    let mut frame = *path.start();
    let end = |handle, at, moves| PathPoint { spot: Spot::Handle(handle), at, moves, clr: None };
    points.push(end(HandleId::Start, frame.origin, Moves::Freely));
    let mut moves = Moves::Freely;
    for (bend, row) in path.rows().iter().enumerate() {
        let begins = frame.advanced(row.straight.mm()).rolled(row.rotation.radians());
        frame = begins.bent(row.clr.mm(), row.angle.radians());
        let clr = Some(row.clr);
        if row.angle >= BY_ARC_ENDS_FROM {
            let along = Moves::Along(begins.tangent);
            points.push(PathPoint { clr, ..end(HandleId::ArcStart(bend), begins.origin, along) });
            points.push(end(HandleId::ArcEnd(bend), frame.origin, Moves::Not));
        } else {
            let at = begins.advanced(row.tangent_mm()).origin;
            points.push(PathPoint { clr, ..end(HandleId::Vertex(bend), at, moves) });
        }
        // What follows a bend that is held by its arc goes where that arc points.
        let slides = held_in_rows && row.angle >= HANDLE_LIMIT;
        moves = if slides { Moves::Along(frame.tangent) } else { Moves::Freely };
    }
    points.push(end(HandleId::Finish, frame.advanced(path.tail().mm()).origin, moves));
    points
}

impl PathPoint {
    /// One of its coordinates, mm; `None` for a column that is none.
    pub fn coordinate_mm(&self, column: Column) -> Option<f64> {
        column.axis().map(|axis| self.at[axis])
    }

    /// The edit that puts one of its coordinates to a value.
    ///
    /// # Errors
    /// Refuses where the point cannot be moved so, and says what can be typed instead.
    pub fn put(&self, axis: usize, to: Length, nodes: &Numbering, unit: LengthUnit) -> Result<Edit, CellError> {
        let name = self.spot.name();
        let by_mm = to.mm() - self.at[axis];
        let mut at = self.at;
        match self.moves {
            Moves::Freely => at[axis] = to.mm(),
            Moves::Along(direction) if direction[axis].abs() >= LEAST_SHARE => {
                at += direction * (by_mm / direction[axis]);
                at[axis] = to.mm();
            }
            Moves::Along(direction) => {
                let most = direction.iamax();
                let (this, other) = (["x", "y", "z"][axis], ["x", "y", "z"][most]);
                let now =
                    elbowroom_geometry::units::format_length(Length::from_mm(self.at[axis]), unit, unit.decimals());
                return Err(CellError::Refused(format!(
                    "{name} only slides along its straight, which leaves {this} at {now}: type {other}, or move what lies before it"
                )));
            }
            Moves::Not => {
                return Err(CellError::Refused(format!(
                    "{name} where radius, angle and rotation put it: type those, or where the bend begins"
                )));
            }
        }
        Ok(match self.spot {
            Spot::Handle(handle) => Edit::MoveHandle(nodes.handle(handle), at),
            Spot::Vertex(vertex) => Edit::MoveVertex(nodes.vertex(vertex), at),
        })
    }
}
