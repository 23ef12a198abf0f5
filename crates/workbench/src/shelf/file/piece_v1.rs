//! Measured pieces as they stand in part and system files of version 1.

use elbowroom_bending::first_off::piece::Piece;
use elbowroom_geometry::Refusal;
use serde::Deserialize;

use super::measured_v1::{EndV1, HandV1, MeasuredV1, SettingV1};
use super::numbers::Millimetres;
use super::piece_v2::{PieceFieldsV2, PieceV2};
use super::tube_v1::TubeV1;

/// A piece in a file; its numbers have passed the guard of [`Piece`].
#[derive(Clone, Deserialize)]
#[serde(try_from = "PieceFields")]
pub(crate) struct PieceV1(pub Piece);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PieceFields {
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
}

/// Nobody could stand by a measurement in version 1.
impl TryFrom<PieceFields> for PieceV1 {
    type Error = Refusal;

    fn try_from(older: PieceFields) -> Result<Self, Refusal> {
        let PieceFields { from, hand, tube, blank_mm, lead_trim_mm, tail_trim_mm, steps, corrected_after, measured } =
            older;
        let piece = PieceFieldsV2 {
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
        };
        PieceV2::try_from(piece).map(|piece| Self(piece.0))
    }
}
