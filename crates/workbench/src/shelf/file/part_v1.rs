//! Part files of version 1, apart from the live [`Part`].

use elbowroom_bending::first_off::piece::Piece;
use elbowroom_bending::text::{harmless, harmless_lines};
use elbowroom_bending::{ExtraStock, Nodes, Part, ToolingChoice};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, Refusal};
use serde::{Deserialize, Serialize};

use super::format::parse;
use super::numbers::{Degrees, Millimetres};
use super::path_v1::PathV1;
use super::piece_v1::PieceV1;
use super::problem::FileProblem;
use super::tube_v1::TubeV1;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-part/1";

/// Reads a part of version 1.
pub(crate) fn read(text: &str, file: &str) -> Result<Part, FileProblem> {
    parse::<PartV1>(text, file).map(Part::from)
}

/// A part as it stands in a file of version 1.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PartV1 {
    format: String,
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
    /// Left out where nothing was measured.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pieces: Vec<PieceV1>,
}

#[derive(Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum UnitsV1 {
    #[default]
    Millimetre,
    Centimetre,
    Metre,
    Inch,
    Foot,
}

#[derive(Clone, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default, try_from = "ToolingFields")]
struct ToolingV1 {
    die: Option<String>,
    clamp_mm: Option<Millimetres>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seam_start_deg: Option<Degrees>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct ToolingFields {
    die: Option<String>,
    clamp_mm: Option<Millimetres>,
    seam_start_deg: Option<Degrees>,
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default, try_from = "StockFields")]
struct StockV1 {
    lead_mm: Millimetres,
    tail_mm: Millimetres,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct StockFields {
    lead_mm: Millimetres,
    tail_mm: Millimetres,
}

impl TryFrom<ToolingFields> for ToolingV1 {
    type Error = Refusal;

    fn try_from(fields: ToolingFields) -> Result<Self, Refusal> {
        match fields.clamp_mm {
            Some(clamp) if clamp.0 <= 0.0 => {
                Err(Refusal::new("the length of the clamp", format!("{} mm", clamp.0), "more than 0 mm"))
            }
            clamp_mm => Ok(Self { die: fields.die, clamp_mm, seam_start_deg: fields.seam_start_deg }),
        }
    }
}

impl TryFrom<StockFields> for StockV1 {
    type Error = Refusal;

    fn try_from(fields: StockFields) -> Result<Self, Refusal> {
        for (end, stock) in [("lead end", fields.lead_mm), ("tail", fields.tail_mm)] {
            if stock.0 < 0.0 {
                let field = format!("the extra stock at the {end}");
                return Err(Refusal::new(field, format!("{} mm", stock.0), "0 mm or more"));
            }
        }
        Ok(Self { lead_mm: fields.lead_mm, tail_mm: fields.tail_mm })
    }
}

impl From<PartV1> for Part {
    fn from(file: PartV1) -> Self {
        let pieces: Vec<Piece> = file.pieces.into_iter().map(|piece| piece.0).collect();
        let mut tooling = ToolingChoice {
            die: file.tooling.die.map(|die| harmless(&die).into_owned()),
            clamp: file.tooling.clamp_mm.map(Length::from),
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
            stock: ExtraStock { lead: file.stock.lead_mm.into(), tail: file.stock.tail_mm.into() },
            units: match file.units {
                UnitsV1::Millimetre => LengthUnit::Millimetre,
                UnitsV1::Centimetre => LengthUnit::Centimetre,
                UnitsV1::Metre => LengthUnit::Metre,
                UnitsV1::Inch => LengthUnit::Inch,
                UnitsV1::Foot => LengthUnit::Foot,
            },
        }
    }
}

impl From<&Part> for PartV1 {
    fn from(part: &Part) -> Self {
        Self {
            format: STAMP.to_owned(),
            name: part.name.clone(),
            note: part.note.clone(),
            units: match part.units {
                LengthUnit::Millimetre => UnitsV1::Millimetre,
                LengthUnit::Centimetre => UnitsV1::Centimetre,
                LengthUnit::Metre => UnitsV1::Metre,
                LengthUnit::Inch => UnitsV1::Inch,
                LengthUnit::Foot => UnitsV1::Foot,
            },
            tube: TubeV1(part.tube.clone()),
            tooling: ToolingV1 {
                die: part.tooling.die.clone(),
                clamp_mm: part.tooling.clamp.map(Into::into),
                seam_start_deg: part.tooling.seam_start.map(Degrees),
            },
            stock: StockV1 { lead_mm: part.stock.lead.into(), tail_mm: part.stock.tail.into() },
            path: PathV1(part.path.clone()),
            pieces: part.pieces.iter().cloned().map(PieceV1).collect(),
        }
    }
}
