//! A tube with all that was chosen for it, as it stands in system files of version 2. They are read and no longer written.

use elbowroom_geometry::Refusal;
use serde::{Deserialize, Deserializer};

use super::choice_v2::ToolingV2;
use super::path_v1::PathV1;
use super::piece_v2::PieceV2;
use super::stock_v1::StockV1;
use super::system_tube_v3::{TubeOfSystemFieldsV3, TubeOfSystemV3, TubesV3, tubes};
use super::tube_v1::TubeV1;

/// The tubes of a system.
pub(super) struct TubesV2(pub(super) TubesV3);

/// A tube in a file of a system; its numbers have passed the guards of the live types.
#[derive(Deserialize)]
#[serde(try_from = "TubeOfSystemFields")]
struct TubeOfSystemV2(TubeOfSystemV3);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TubeOfSystemFields {
    id: u32,
    name: String,
    #[serde(default)]
    hidden: bool,
    #[serde(default)]
    note: String,
    tube: TubeV1,
    #[serde(default)]
    tooling: ToolingV2,
    #[serde(default)]
    stock: StockV1,
    path: PathV1,
    #[serde(default)]
    places: Vec<u32>,
    #[serde(default)]
    pieces: Vec<PieceV2>,
}

impl TryFrom<TubeOfSystemFields> for TubeOfSystemV2 {
    type Error = Refusal;

    fn try_from(older: TubeOfSystemFields) -> Result<Self, Refusal> {
        let TubeOfSystemFields { id, name, hidden, note, tube, tooling, stock, path, places, pieces } = older;
        let fields =
            TubeOfSystemFieldsV3 { id, name, hidden, note, tube, tooling, stock, path, places, keep: None, pieces };
        TubeOfSystemV3::try_from(fields).map(Self)
    }
}

impl From<TubeOfSystemV2> for TubeOfSystemV3 {
    fn from(tube: TubeOfSystemV2) -> Self {
        tube.0
    }
}

impl<'de> Deserialize<'de> for TubesV2 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        tubes::<D, TubeOfSystemV2>(deserializer).map(Self)
    }
}
