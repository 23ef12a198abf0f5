//! What stands around the tubes, as it stands in system files of version 4.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::{MeshSource, MeshUnit, Obstacle, ObstacleId, Shape, UpAxis};
use elbowroom_geometry::{Frame, Length, Point3, Refusal, Vector3};
use serde::{Deserialize, Serialize};

use super::numbers::Millimetres;

/// An obstacle in a file; its numbers have passed the guards of the live type.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "ObstacleFieldsV1", into = "ObstacleFieldsV1")]
pub(crate) struct ObstacleV1(pub Obstacle);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ObstacleFieldsV1 {
    id: u32,
    name: String,
    #[serde(default)]
    kind: KindV1,
    /// Left out where its kind tells.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    clearance_mm: Option<Millimetres>,
    #[serde(default, skip_serializing_if = "is_not")]
    hidden: bool,
    #[serde(default, skip_serializing_if = "is_not")]
    locked: bool,
    #[serde(default)]
    stands: StandsV1,
    shape: ShapeV1,
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum KindV1 {
    #[default]
    Body,
    Wiring,
    FuelLine,
    Moving {
        travel_mm: Millimetres,
    },
    Ground,
}

/// Where it stands: its x along, its y beside.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct StandsV1 {
    at_mm: [Millimetres; 3],
    along: [f64; 3],
    beside: [f64; 3],
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum ShapeV1 {
    Mesh {
        file: String,
        blake3: String,
        unit: UnitV1,
        up: UpV1,
        /// The bytes of the file as base64, where they are packed in.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        packed: Option<String>,
    },
    Box {
        size_mm: [Millimetres; 3],
    },
    Cylinder {
        diameter_mm: Millimetres,
        length_mm: Millimetres,
    },
    Plane,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum UnitV1 {
    Millimetre,
    Inch,
    Metre,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum UpV1 {
    X,
    Y,
    Z,
}

impl Default for StandsV1 {
    fn default() -> Self {
        Self::from(&Frame::world())
    }
}

impl From<&Frame> for StandsV1 {
    fn from(frame: &Frame) -> Self {
        let at_mm = [0, 1, 2].map(|axis| Millimetres(frame.origin[axis]));
        Self { at_mm, along: frame.tangent.into(), beside: frame.normal.into() }
    }
}

impl From<StandsV1> for Frame {
    fn from(stands: StandsV1) -> Self {
        let [x, y, z] = stands.at_mm.map(|at| at.0);
        let (tangent, normal) = (Vector3::from(stands.along), Vector3::from(stands.beside));
        Self { origin: Point3::new(x, y, z), tangent, normal }
    }
}

impl TryFrom<ObstacleFieldsV1> for ObstacleV1 {
    type Error = Refusal;

    fn try_from(fields: ObstacleFieldsV1) -> Result<Self, Refusal> {
        let ObstacleFieldsV1 { id, name, kind, clearance_mm, hidden, locked, stands, shape } = fields;
        let obstacle = Obstacle {
            id: ObstacleId::new(id),
            name,
            shape: shape.try_into()?,
            placement: stands.into(),
            kind: kind.into(),
            clearance: clearance_mm.map(Length::from),
            hidden,
            locked,
        };
        obstacle.checked().map(Self)
    }
}

impl From<ObstacleV1> for ObstacleFieldsV1 {
    fn from(ObstacleV1(obstacle): ObstacleV1) -> Self {
        Self {
            id: obstacle.id.number(),
            name: obstacle.name,
            kind: obstacle.kind.into(),
            clearance_mm: obstacle.clearance.map(Millimetres::from),
            hidden: obstacle.hidden,
            locked: obstacle.locked,
            stands: StandsV1::from(&obstacle.placement),
            shape: obstacle.shape.into(),
        }
    }
}

impl From<KindV1> for ObstacleKind {
    fn from(kind: KindV1) -> Self {
        match kind {
            KindV1::Body => Self::Body,
            KindV1::Wiring => Self::Wiring,
            KindV1::FuelLine => Self::FuelLine,
            KindV1::Moving { travel_mm } => Self::Moving { travel: travel_mm.into() },
            KindV1::Ground => Self::Ground,
        }
    }
}

impl From<ObstacleKind> for KindV1 {
    fn from(kind: ObstacleKind) -> Self {
        match kind {
            ObstacleKind::Body => Self::Body,
            ObstacleKind::Wiring => Self::Wiring,
            ObstacleKind::FuelLine => Self::FuelLine,
            ObstacleKind::Moving { travel } => Self::Moving { travel_mm: travel.into() },
            ObstacleKind::Ground => Self::Ground,
        }
    }
}

impl TryFrom<ShapeV1> for Shape {
    type Error = Refusal;

    fn try_from(shape: ShapeV1) -> Result<Self, Refusal> {
        Ok(match shape {
            ShapeV1::Mesh { file, blake3, unit, up, packed } => {
                let unit = match unit {
                    UnitV1::Millimetre => MeshUnit::Millimetre,
                    UnitV1::Inch => MeshUnit::Inch,
                    UnitV1::Metre => MeshUnit::Metre,
                };
                let up = match up {
                    UpV1::X => UpAxis::X,
                    UpV1::Y => UpAxis::Y,
                    UpV1::Z => UpAxis::Z,
                };
                let unpacked = |text: String| {
                    let bytes = STANDARD.decode(text);
                    bytes.map_err(|_| Refusal::new("what is packed in", "no base64", "what the program wrote there"))
                };
                let packed = packed.map(unpacked).transpose()?.map(Into::into);
                Self::Mesh(MeshSource { file, fingerprint: blake3, unit, up, packed })
            }
            ShapeV1::Box { size_mm } => Self::Cuboid(size_mm.map(Length::from)),
            ShapeV1::Cylinder { diameter_mm, length_mm } => {
                Self::Cylinder { diameter: diameter_mm.into(), length: length_mm.into() }
            }
            ShapeV1::Plane => Self::Plane,
        })
    }
}

impl From<Shape> for ShapeV1 {
    fn from(shape: Shape) -> Self {
        match shape {
            Shape::Mesh(MeshSource { file, fingerprint, unit, up, packed }) => {
                let unit = match unit {
                    MeshUnit::Millimetre => UnitV1::Millimetre,
                    MeshUnit::Inch => UnitV1::Inch,
                    MeshUnit::Metre => UnitV1::Metre,
                };
                let up = match up {
                    UpAxis::X => UpV1::X,
                    UpAxis::Y => UpV1::Y,
                    UpAxis::Z => UpV1::Z,
                };
                let packed = packed.map(|bytes| STANDARD.encode(bytes));
                Self::Mesh { file, blake3: fingerprint, unit, up, packed }
            }
            Shape::Cuboid(size) => Self::Box { size_mm: size.map(Millimetres::from) },
            Shape::Cylinder { diameter, length } => {
                Self::Cylinder { diameter_mm: diameter.into(), length_mm: length.into() }
            }
            Shape::Plane => Self::Plane,
        }
    }
}

/// Whether a word that is left out where it is no has to be left out.
#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde passes every field by reference")]
fn is_not(yes: &bool) -> bool {
    !yes
}
