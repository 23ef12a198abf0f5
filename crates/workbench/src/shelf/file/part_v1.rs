//! Part files of version 1, apart from the live [`Part`]. They are read and no longer written: a part is the system
//! of a single tube.

use std::sync::Arc;

use elbowroom_bending::text::harmless;
use elbowroom_bending::{Part, System};
use serde::Deserialize;

use super::choice_v2::ToolingV2;
use super::format::parse;
use super::measured_v1::EndV1;
use super::numbers::{ClampMillimetres, SeamDegrees};
use super::path_v1::PathV1;
use super::piece_v1::PieceV1;
use super::piece_v2::PieceV2;
use super::problem::FileProblem;
use super::stock_v1::{StockV1, UnitsV1};
use super::system_tube_v3::TubeOfSystemV3;
use super::tube_v1::TubeV1;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-part/1";

/// Reads a part of version 1, as the system of a single tube.
pub(crate) fn read(text: &str, file: &str) -> Result<System, FileProblem> {
    parse::<PartV1>(text, file).map(|part| System::of(Part::from(part)))
}

/// A part as it stands in a file of version 1.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PartV1 {
    #[serde(rename = "format")]
    _format: String,
    name: String,
    #[serde(default)]
    note: String,
    #[serde(default)]
    units: UnitsV1,
    tube: TubeV1,
    #[serde(default)]
    tooling: ToolingV1,
    #[serde(default)]
    stock: StockV1,
    path: PathV1,
    #[serde(default)]
    pieces: Vec<PieceV1>,
}

#[derive(Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct ToolingV1 {
    die: Option<String>,
    clamp_mm: Option<ClampMillimetres>,
    seam_start_deg: Option<SeamDegrees>,
}

impl From<PartV1> for Part {
    fn from(file: PartV1) -> Self {
        let units = file.units.into();
        Arc::unwrap_or_clone(TubeOfSystemV3::from(file).live(units).part)
    }
}

/// A part was all that a file held in version 1. Such a file does not hold from which end and to which side the part is bent:
/// who opens it goes on as its last piece was bent.
impl From<PartV1> for TubeOfSystemV3 {
    fn from(older: PartV1) -> Self {
        let PartV1 { name, note, tube, tooling, stock, path, pieces, .. } = older;
        let pieces: Vec<_> = pieces.into_iter().map(|piece| PieceV2(piece.0)).collect();
        let bent = pieces.last().map(|PieceV2(piece)| (piece.from.into(), piece.hand.into()));
        let tooling = ToolingV2 {
            die: tooling.die,
            clamp_mm: tooling.clamp_mm,
            seam_start_deg: tooling.seam_start_deg,
            from: bent.map_or(EndV1::Start, |(from, _)| from),
            hand: bent.map(|(_, hand)| hand),
            ..ToolingV2::default()
        };
        let name = harmless(&name).into_owned();
        Self { id: 0, name, hidden: false, note, tube, tooling, stock, path, places: Vec::new(), keep: None, pieces }
    }
}
