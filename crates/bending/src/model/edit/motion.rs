//! Moving a whole part without bending it otherwise: along, about an axis, and to the other side of a plane.

use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Point3, Refusal, Vector3};
use nalgebra::{Rotation3, Unit};

use super::refusal::EditRefusal;
use super::vertices::Vertices;
use crate::model::part::{Part, SeamStart};
use crate::model::path::Path;

/// A motion of a whole part. Lengths and angles of bends stay; mirrored, rotations count the other way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Motion {
    /// By so much, mm.
    By(Vector3<f64>),
    /// About the axis through a point (mm) in a direction, counterclockwise for one whom it points at.
    Turned {
        /// A point of the axis.
        about: Point3<f64>,
        /// Its direction, of any length.
        axis: Vector3<f64>,
        /// By how much.
        by: Angle,
    },
    /// To the other side of the plane through a point (mm), square to a direction.
    Mirrored {
        /// A point of the plane.
        through: Point3<f64>,
        /// The direction square to it, of any length.
        normal: Vector3<f64>,
    },
}

/// A motion with its directions made unit ones.
enum Moves {
    By(Vector3<f64>),
    Turned(Point3<f64>, Rotation3<f64>),
    Mirrored(Point3<f64>, Unit<Vector3<f64>>),
}

/// A direction shorter than this has none.
const SHORTEST: f64 = 1e-12;

impl Motion {
    fn guarded(&self) -> Result<Moves, EditRefusal> {
        let unit = |direction: &Vector3<f64>| {
            let found = Unit::try_new(*direction, SHORTEST).filter(|unit| unit.iter().all(|share| share.is_finite()));
            let refusal = || Refusal::new("the direction of the motion", "none", "one that leads somewhere");
            found.ok_or_else(|| EditRefusal::from(refusal()))
        };
        Ok(match self {
            Self::By(by) => Moves::By(*by),
            Self::Turned { about, axis, by } => {
                Moves::Turned(*about, Rotation3::from_axis_angle(&unit(axis)?, by.radians()))
            }
            Self::Mirrored { through, normal } => Moves::Mirrored(*through, unit(normal)?),
        })
    }

    /// Whether rotations and clock positions count the other way afterwards.
    fn mirrors(&self) -> bool {
        matches!(self, Self::Mirrored { .. })
    }

    /// Where some points go.
    ///
    /// # Errors
    /// Refuses an axis or a plane without a direction.
    pub fn moves(&self, points: &[Point3<f64>]) -> Result<Vec<Point3<f64>>, EditRefusal> {
        let moves = self.guarded()?;
        Ok(points.iter().map(|point| moves.point(point)).collect())
    }
}

impl Moves {
    fn point(&self, point: &Point3<f64>) -> Point3<f64> {
        match self {
            Self::By(by) => point + by,
            Self::Turned(about, turn) => about + turn * (point - about),
            Self::Mirrored(through, normal) => point - **normal * (2.0 * normal.dot(&(point - through))),
        }
    }

    fn direction(&self, direction: &Vector3<f64>) -> Vector3<f64> {
        match self {
            Self::By(_) => *direction,
            Self::Turned(_, turn) => turn * direction,
            Self::Mirrored(_, normal) => direction - **normal * (2.0 * normal.dot(direction)),
        }
    }
}

/// Moves a part. Mirrored, its pinned seam lies on the other side too, and what was measured on pieces is gone: they were
/// bent to the other side.
pub(super) fn moved(part: &mut Part, motion: &Motion) -> Result<(), EditRefusal> {
    let moves = motion.guarded()?;
    let path = match &part.path {
        Path::Vertices(path) => {
            let mut vertices = Vertices::of(path);
            vertices.points.iter_mut().for_each(|point| *point = moves.point(point));
            Path::Vertices(vertices.path()?)
        }
        Path::Bends(path) => {
            let start = path.start();
            let start = Frame {
                origin: moves.point(&start.origin),
                tangent: moves.direction(&start.tangent),
                normal: moves.direction(&start.normal),
            };
            // Seen from the other side of a mirror what turns to the right turns to the left.
            let turned = |row: &BendRow| BendRow { rotation: -row.rotation, ..*row };
            let rows = path.rows().iter().map(|row| if motion.mirrors() { turned(row) } else { *row });
            Path::Bends(BendPath::new(start, rows.collect(), path.tail())?)
        }
    };
    path.check()?;
    part.path = path;
    if motion.mirrors() {
        part.tooling.seam_start = part.tooling.seam_start.map(|start| SeamStart::at(-start.clock()));
        part.pieces.clear();
    }
    Ok(())
}
