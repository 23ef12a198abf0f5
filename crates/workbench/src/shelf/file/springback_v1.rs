//! Trial bends as they stand in a shop file of version 1.

use elbowroom_bending::forming::process::SpringbackRecord;
use elbowroom_geometry::Refusal;
use serde::Deserialize;

use super::limits_v1::LineV1;
use super::numbers::{Degrees, Millimetres};
use super::springback_v2::{RecordFieldsV2, SpringbackV2, TrialV2};

/// What the shop knows of one die set in one material.
#[derive(Deserialize)]
#[serde(try_from = "RecordFields")]
pub(crate) struct SpringbackV1(pub SpringbackRecord);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RecordFields {
    die: String,
    material: String,
    #[serde(default)]
    trials: Vec<TrialV1>,
    #[serde(default)]
    line: Option<LineV1>,
    #[serde(default)]
    stretch: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TrialV1 {
    set_deg: Degrees,
    measured_deg: Degrees,
    #[serde(default)]
    measured_radius_mm: Option<Millimetres>,
    #[serde(default)]
    drawn_length_mm: Option<Millimetres>,
}

/// Nobody asked for walls and cracks in this version.
impl TryFrom<RecordFields> for SpringbackV1 {
    type Error = Refusal;

    fn try_from(older: RecordFields) -> Result<Self, Refusal> {
        let RecordFields { die, material, trials, line, stretch } = older;
        let trials = trials.into_iter().map(TrialV2::from).collect();
        let fields = RecordFieldsV2 { die, material, trials, line, stretch, uncracked: false };
        SpringbackV2::try_from(fields).map(|record| Self(record.0))
    }
}

impl From<TrialV1> for TrialV2 {
    fn from(older: TrialV1) -> Self {
        let TrialV1 { set_deg, measured_deg, measured_radius_mm, drawn_length_mm } = older;
        Self { set_deg, measured_deg, measured_radius_mm, drawn_length_mm, wall_mm: None }
    }
}
