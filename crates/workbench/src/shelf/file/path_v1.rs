//! A centreline as it stands in part files of version 1, in whichever form it was drawn.

use elbowroom_bending::Path;
use elbowroom_geometry::{BendPath, BendRow, Frame, Point3, Refusal, Vector3, VertexPath};
use serde::{Deserialize, Serialize};

use super::numbers::{Degrees, Millimetres};

/// A path in a file; its numbers have passed the guards of the live types.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "PathFields", into = "PathFields")]
pub(crate) struct PathV1(pub Path);

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum PathFields {
    /// Points where neighbouring straights meet, and a radius for each one between the ends.
    Vertices { points_mm: Vec<[Millimetres; 3]>, clr_mm: Vec<Millimetres> },
    /// Bends in order, and the straight after the last one.
    Bends {
        #[serde(default)]
        start: StartFields,
        bends: Vec<BendFields>,
        tail_mm: Millimetres,
    },
}

/// Where the lead end is, where the tube goes from there, and to which side it bends first.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StartFields {
    at_mm: [Millimetres; 3],
    along: [f64; 3],
    bends_towards: [f64; 3],
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct BendFields {
    straight_mm: Millimetres,
    rotation_deg: Degrees,
    angle_deg: Degrees,
    clr_mm: Millimetres,
}

impl Default for StartFields {
    fn default() -> Self {
        Self::from(&Frame::world())
    }
}

impl From<&Frame> for StartFields {
    fn from(frame: &Frame) -> Self {
        Self { at_mm: point_fields(&frame.origin), along: frame.tangent.into(), bends_towards: frame.normal.into() }
    }
}

fn point_fields(point: &Point3<f64>) -> [Millimetres; 3] {
    [Millimetres(point.x), Millimetres(point.y), Millimetres(point.z)]
}

fn point_of(fields: [Millimetres; 3]) -> Point3<f64> {
    let [x, y, z] = fields;
    Point3::new(x.0, y.0, z.0)
}

impl TryFrom<PathFields> for PathV1 {
    type Error = Refusal;

    fn try_from(fields: PathFields) -> Result<Self, Refusal> {
        Ok(Self(match fields {
            PathFields::Vertices { points_mm, clr_mm } => {
                let points = points_mm.into_iter().map(point_of).collect();
                Path::Vertices(VertexPath::new(points, clr_mm.into_iter().map(Into::into).collect())?)
            }
            PathFields::Bends { start, bends, tail_mm } => {
                let start = Frame {
                    origin: point_of(start.at_mm),
                    tangent: Vector3::from(start.along),
                    normal: Vector3::from(start.bends_towards),
                };
                let row = |bend: BendFields| BendRow {
                    straight: bend.straight_mm.into(),
                    rotation: bend.rotation_deg.0,
                    angle: bend.angle_deg.0,
                    clr: bend.clr_mm.into(),
                };
                Path::Bends(BendPath::new(start, bends.into_iter().map(row).collect(), tail_mm.into())?)
            }
        }))
    }
}

impl From<PathV1> for PathFields {
    fn from(PathV1(path): PathV1) -> Self {
        match path {
            Path::Vertices(path) => Self::Vertices {
                points_mm: path.points().iter().map(point_fields).collect(),
                clr_mm: path.clr().iter().map(|clr| Millimetres(clr.mm())).collect(),
            },
            Path::Bends(path) => Self::Bends {
                start: path.start().into(),
                bends: path
                    .rows()
                    .iter()
                    .map(|row| BendFields {
                        straight_mm: row.straight.into(),
                        rotation_deg: Degrees(row.rotation),
                        angle_deg: Degrees(row.angle),
                        clr_mm: row.clr.into(),
                    })
                    .collect(),
                tail_mm: path.tail().into(),
            },
        }
    }
}
