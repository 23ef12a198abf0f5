//! Part files of version 1, apart from the live [`Part`]. They are read and no longer written: a part is the system
//! of a single tube.

use elbowroom_bending::first_off::piece::Piece;
use elbowroom_bending::text::{harmless, harmless_lines};
use elbowroom_bending::{ExtraStock, Guard, Nodes, Part, StockFigures, System, ToolingChoice};
use elbowroom_geometry::Refusal;
use elbowroom_geometry::units::LengthUnit;
use serde::{Deserialize, Serialize};

use super::format::parse;
use super::numbers::{ClampMillimetres, Millimetres, SeamDegrees};
use super::path_v1::PathV1;
use super::piece_v1::PieceV1;
use super::problem::FileProblem;
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

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum UnitsV1 {
    #[default]
    Millimetre,
    Centimetre,
    Metre,
    Inch,
    Foot,
}

#[derive(Clone, Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct ToolingV1 {
    die: Option<String>,
    clamp_mm: Option<ClampMillimetres>,
    seam_start_deg: Option<SeamDegrees>,
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(default, try_from = "StockFields", into = "StockFields")]
pub(super) struct StockV1(pub(super) ExtraStock);

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct StockFields {
    lead_mm: Millimetres,
    tail_mm: Millimetres,
}

impl TryFrom<StockFields> for StockV1 {
    type Error = Refusal;

    fn try_from(fields: StockFields) -> Result<Self, Refusal> {
        StockFigures { lead: fields.lead_mm.into(), tail: fields.tail_mm.into() }.sound().map(Self)
    }
}

impl From<StockV1> for StockFields {
    fn from(StockV1(stock): StockV1) -> Self {
        Self { lead_mm: stock.lead.into(), tail_mm: stock.tail.into() }
    }
}

impl From<PartV1> for Part {
    fn from(file: PartV1) -> Self {
        let pieces: Vec<Piece> = file.pieces.into_iter().map(|piece| piece.0).collect();
        let mut tooling = ToolingChoice {
            die: file.tooling.die.map(|die| harmless(&die).into_owned()),
            clamp: file.tooling.clamp_mm.map(|clamp| clamp.0),
            seam_start: file.tooling.seam_start_deg.map(|start| start.0),
            ..ToolingChoice::default()
        };
        // This version does not hold from which end and to which side the part is bent: who opens it goes on as its
        // last piece was bent.
        if let Some(piece) = pieces.last() {
            tooling.go_on_as(piece);
        }
        Self {
            name: harmless(&file.name).into_owned(),
            note: harmless_lines(&file.note.replace("\r\n", "\n")).into_owned(),
            tube: file.tube.0,
            tooling,
            path: file.path.0,
            pieces,
            nodes: Nodes::default(),
            stock: file.stock.0,
            units: file.units.into(),
        }
    }
}

impl From<UnitsV1> for LengthUnit {
    fn from(units: UnitsV1) -> Self {
        match units {
            UnitsV1::Millimetre => Self::Millimetre,
            UnitsV1::Centimetre => Self::Centimetre,
            UnitsV1::Metre => Self::Metre,
            UnitsV1::Inch => Self::Inch,
            UnitsV1::Foot => Self::Foot,
        }
    }
}

impl From<LengthUnit> for UnitsV1 {
    fn from(unit: LengthUnit) -> Self {
        match unit {
            LengthUnit::Millimetre => Self::Millimetre,
            LengthUnit::Centimetre => Self::Centimetre,
            LengthUnit::Metre => Self::Metre,
            LengthUnit::Inch => Self::Inch,
            LengthUnit::Foot => Self::Foot,
        }
    }
}
