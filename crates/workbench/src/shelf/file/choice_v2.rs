//! What was chosen of a tube's bending, as it stands in system files since version 2.

use elbowroom_bending::first_off::ToleranceChoice;
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::measured_v1::{EndV1, HandV1};
use super::numbers::{ClampMillimetres, Degrees, Millimetres, SeamDegrees};

#[derive(Clone, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub(super) struct ToolingV2 {
    pub(super) die: Option<String>,
    pub(super) clamp_mm: Option<ClampMillimetres>,
    /// The end of the drawing that is bent first.
    pub(super) from: EndV1,
    /// Left out where the side is left to the machine of the shop.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) hand: Option<HandV1>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) seam_start_deg: Option<SeamDegrees>,
    /// Left out where measured pieces correct the program.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub(super) as_planned: bool,
    /// Left out where pieces are judged by what is usual.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) tolerance: Option<ToleranceV2>,
}

/// How far a finished part may stray; what is left out is usual.
#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(try_from = "ToleranceFields", into = "ToleranceFields")]
pub(super) struct ToleranceV2(pub(super) ToleranceChoice);

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
struct ToleranceFields {
    #[serde(skip_serializing_if = "Option::is_none")]
    angle_deg: Option<Degrees>,
    #[serde(skip_serializing_if = "Option::is_none")]
    length_mm: Option<Millimetres>,
}

impl TryFrom<ToleranceFields> for ToleranceV2 {
    type Error = Refusal;

    fn try_from(fields: ToleranceFields) -> Result<Self, Refusal> {
        let (angle, length) = (fields.angle_deg.map(|angle| angle.0), fields.length_mm.map(Into::into));
        ToleranceChoice::new(angle, length).map(Self)
    }
}

impl From<ToleranceV2> for ToleranceFields {
    fn from(ToleranceV2(choice): ToleranceV2) -> Self {
        Self { angle_deg: choice.angle().map(Degrees), length_mm: choice.length().map(Into::into) }
    }
}
