//! Measured pieces as they stand in system files of version 2: a person can stand by what was measured.

use elbowroom_bending::first_off::piece::{Piece, Setting};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::numbers::Millimetres;
use super::piece_v1::{EndV1, HandV1, MeasuredV1, PieceFields, SettingV1};
use super::tube_v1::TubeV1;

/// A piece in a file; its numbers have passed the guards of [`Piece::check`].
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "PieceFieldsV2", into = "PieceFieldsV2")]
pub(crate) struct PieceV2(pub Piece);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PieceFieldsV2 {
    from: EndV1,
    hand: HandV1,
    tube: TubeV1,
    blank_mm: Millimetres,
    #[serde(default)]
    lead_trim_mm: Millimetres,
    #[serde(default)]
    tail_trim_mm: Millimetres,
    /// In the order of bending.
    steps: Vec<SettingV1>,
    /// The number of the piece after which the program was corrected, 0 for the plan.
    #[serde(default)]
    corrected_after: usize,
    /// From the lead end of the drawing to its tail.
    measured: MeasuredV1,
    /// Left out where nobody has measured again and stands by it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    as_measured: bool,
}

/// Nobody could stand by a measurement in version 1.
impl TryFrom<PieceFields> for PieceV2 {
    type Error = Refusal;

    fn try_from(older: PieceFields) -> Result<Self, Refusal> {
        let PieceFields { from, hand, tube, blank_mm, lead_trim_mm, tail_trim_mm, steps, corrected_after, measured } =
            older;
        Self::try_from(PieceFieldsV2 {
            from,
            hand,
            tube,
            blank_mm,
            lead_trim_mm,
            tail_trim_mm,
            steps,
            corrected_after,
            measured,
            as_measured: false,
        })
    }
}

impl TryFrom<PieceFieldsV2> for PieceV2 {
    type Error = Refusal;

    fn try_from(fields: PieceFieldsV2) -> Result<Self, Refusal> {
        let piece = Piece {
            from: fields.from.into(),
            hand: fields.hand.into(),
            tube: fields.tube.0,
            blank: fields.blank_mm.into(),
            lead_trim: fields.lead_trim_mm.into(),
            tail_trim: fields.tail_trim_mm.into(),
            steps: fields.steps.into_iter().map(Setting::from).collect(),
            corrected_after: fields.corrected_after,
            measurement: fields.measured.into(),
            as_measured: fields.as_measured,
        };
        piece.check(fields.corrected_after + 1)?;
        Ok(Self(piece))
    }
}

impl From<PieceV2> for PieceFieldsV2 {
    fn from(PieceV2(piece): PieceV2) -> Self {
        Self {
            from: piece.from.into(),
            hand: piece.hand.into(),
            tube: TubeV1(piece.tube),
            blank_mm: piece.blank.into(),
            lead_trim_mm: piece.lead_trim.into(),
            tail_trim_mm: piece.tail_trim.into(),
            steps: piece.steps.into_iter().map(SettingV1::from).collect(),
            corrected_after: piece.corrected_after,
            measured: piece.measurement.into(),
            as_measured: piece.as_measured,
        }
    }
}
