//! Extra stock and the unit of lengths as they stand in every version of part and system files.

use elbowroom_bending::{ExtraStock, Guard, StockFigures};
use elbowroom_geometry::Refusal;
use elbowroom_geometry::units::LengthUnit;
use serde::{Deserialize, Serialize};

use super::numbers::Millimetres;

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
