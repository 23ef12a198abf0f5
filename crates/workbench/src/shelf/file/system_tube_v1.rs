//! A tube with all that was chosen for it, as it stands in system files of version 1. They are read and no longer written.

use elbowroom_geometry::Refusal;
use serde::{Deserialize, Deserializer};

use super::choice_v2::ToolingV2;
use super::measured_v1::{EndV1, HandV1};
use super::numbers::{ClampMillimetres, SeamDegrees};
use super::path_v1::PathV1;
use super::piece_v1::PieceV1;
use super::piece_v2::PieceV2;
use super::stock_v1::StockV1;
use super::system_tube_v3::{TubeOfSystemFieldsV3, TubeOfSystemV3, TubesV3, tubes};
use super::tube_v1::TubeV1;

/// The tubes of a system.
pub(super) struct TubesV1(pub(super) TubesV3);

/// A tube in a file of a system; its numbers have passed the guards of the live types.
#[derive(Deserialize)]
#[serde(try_from = "TubeOfSystemFields")]
struct TubeOfSystemV1(TubeOfSystemV3);

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
    tooling: ToolingV1,
    #[serde(default)]
    stock: StockV1,
    path: PathV1,
    #[serde(default)]
    places: Vec<u32>,
    #[serde(default)]
    pieces: Vec<PieceV1>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct ToolingV1 {
    die: Option<String>,
    clamp_mm: Option<ClampMillimetres>,
    from: EndV1,
    hand: Option<HandV1>,
    seam_start_deg: Option<SeamDegrees>,
    as_planned: bool,
}

/// Nobody's tolerance was kept in this version.
impl From<ToolingV1> for ToolingV2 {
    fn from(older: ToolingV1) -> Self {
        let ToolingV1 { die, clamp_mm, from, hand, seam_start_deg, as_planned } = older;
        Self { die, clamp_mm, from, hand, seam_start_deg, as_planned, tolerance: None }
    }
}

impl TryFrom<TubeOfSystemFields> for TubeOfSystemV1 {
    type Error = Refusal;

    fn try_from(older: TubeOfSystemFields) -> Result<Self, Refusal> {
        let TubeOfSystemFields { id, name, hidden, note, tube, tooling, stock, path, places, pieces } = older;
        let pieces = pieces.into_iter().map(|piece| PieceV2(piece.0)).collect();
        let tooling = tooling.into();
        let fields =
            TubeOfSystemFieldsV3 { id, name, hidden, note, tube, tooling, stock, path, places, keep: None, pieces };
        TubeOfSystemV3::try_from(fields).map(Self)
    }
}

impl From<TubeOfSystemV1> for TubeOfSystemV3 {
    fn from(tube: TubeOfSystemV1) -> Self {
        tube.0
    }
}

impl<'de> Deserialize<'de> for TubesV1 {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        tubes::<D, TubeOfSystemV1>(deserializer).map(Self)
    }
}
