//! A tube as it stands in part and shop files of version 1.

use elbowroom_bending::{Seam, Tube};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::numbers::Millimetres;

/// A tube in a file; its sizes have passed the guards of [`Tube::new`].
#[derive(Serialize, Deserialize)]
#[serde(try_from = "TubeFields", into = "TubeFields")]
#[derive(Clone)]
pub(crate) struct TubeV1(pub Tube);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct TubeFields {
    od_mm: Millimetres,
    wall_mm: Millimetres,
    material: String,
    seam: SeamV1,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum SeamV1 {
    Welded,
    Seamless,
}

impl TryFrom<TubeFields> for TubeV1 {
    type Error = Refusal;

    fn try_from(fields: TubeFields) -> Result<Self, Refusal> {
        let seam = match fields.seam {
            SeamV1::Welded => Seam::Welded,
            SeamV1::Seamless => Seam::Seamless,
        };
        Tube::new(fields.od_mm.into(), fields.wall_mm.into(), fields.material, seam).map(Self)
    }
}

impl From<TubeV1> for TubeFields {
    fn from(TubeV1(tube): TubeV1) -> Self {
        let tube = tube.into_figures();
        let seam = match tube.seam {
            Seam::Welded => SeamV1::Welded,
            Seam::Seamless => SeamV1::Seamless,
        };
        Self { od_mm: tube.od.into(), wall_mm: tube.wall.into(), material: tube.material, seam }
    }
}
