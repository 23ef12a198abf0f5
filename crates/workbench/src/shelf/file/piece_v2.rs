//! Measured pieces as they stand in system files of version 2: a person can stand by what was measured.

use elbowroom_bending::Guard;
use elbowroom_bending::first_off::piece::{Piece, PieceFigures, Setting};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::measured_v1::{EndV1, HandV1, MeasuredV1, SettingV1};
use super::numbers::Millimetres;
use super::tube_v1::TubeV1;

/// A piece in a file; its numbers have passed the guard of [`Piece`].
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "PieceFieldsV2", into = "PieceFieldsV2")]
pub(crate) struct PieceV2(pub Piece);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PieceFieldsV2 {
    pub(super) from: EndV1,
    pub(super) hand: HandV1,
    pub(super) tube: TubeV1,
    pub(super) blank_mm: Millimetres,
    #[serde(default)]
    pub(super) lead_trim_mm: Millimetres,
    #[serde(default)]
    pub(super) tail_trim_mm: Millimetres,
    /// In the order of bending.
    pub(super) steps: Vec<SettingV1>,
    /// The number of the piece after which the program was corrected, 0 for the plan.
    #[serde(default)]
    pub(super) corrected_after: usize,
    /// From the lead end of the drawing to its tail.
    pub(super) measured: MeasuredV1,
    /// Left out where nobody has measured again and stands by it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(super) as_measured: bool,
}

impl TryFrom<PieceFieldsV2> for PieceV2 {
    type Error = Refusal;

    fn try_from(fields: PieceFieldsV2) -> Result<Self, Refusal> {
        let piece = PieceFigures {
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
        piece.sound().map(Self).map_err(|refusal| refusal.of("a measured piece"))
    }
}

impl From<PieceV2> for PieceFieldsV2 {
    fn from(PieceV2(piece): PieceV2) -> Self {
        let piece = piece.into_figures();
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
