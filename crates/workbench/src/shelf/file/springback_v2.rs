//! Trial bends and springback lines as they stand in a shop file of version 2: a trial says the wall it was bent of, and
//! a record whether the material has been bent on the die set without a crack.

use elbowroom_bending::Guard;
use elbowroom_bending::forming::process::{RecordFigures, SpringbackRecord};
use elbowroom_bending::forming::springback::{SpringbackLine, TrialBend, TrialFigures};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::limits_v1::LineV1;
use super::numbers::{Degrees, Millimetres};

/// What the shop knows of one die set in one material.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "RecordFieldsV2", into = "RecordFieldsV2")]
pub(crate) struct SpringbackV2(pub SpringbackRecord);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RecordFieldsV2 {
    pub(super) die: String,
    pub(super) material: String,
    #[serde(default)]
    pub(super) trials: Vec<TrialV2>,
    #[serde(default)]
    pub(super) line: Option<LineV1>,
    #[serde(default)]
    pub(super) stretch: Option<f64>,
    #[serde(default)]
    pub(super) uncracked: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TrialV2 {
    pub(super) set_deg: Degrees,
    pub(super) measured_deg: Degrees,
    #[serde(default)]
    pub(super) measured_radius_mm: Option<Millimetres>,
    #[serde(default)]
    pub(super) drawn_length_mm: Option<Millimetres>,
    #[serde(default)]
    pub(super) wall_mm: Option<Millimetres>,
}

impl TryFrom<RecordFieldsV2> for SpringbackV2 {
    type Error = Refusal;

    fn try_from(fields: RecordFieldsV2) -> Result<Self, Refusal> {
        let trial = |(index, trial): (usize, TrialV2)| {
            TrialFigures::from(trial).sound().map_err(|refusal| refusal.of(format_args!("trial {}", index + 1)))
        };
        RecordFigures {
            trials: fields.trials.into_iter().enumerate().map(trial).collect::<Result<_, _>>()?,
            line: fields.line.map(|line| SpringbackLine::new(line.a_deg.0, line.b)).transpose()?,
            stretch: fields.stretch,
            uncracked: fields.uncracked,
            die: fields.die,
            material: fields.material,
        }
        .sound()
        .map(Self)
    }
}

impl From<SpringbackV2> for RecordFieldsV2 {
    fn from(SpringbackV2(record): SpringbackV2) -> Self {
        let record = record.into_figures();
        Self {
            die: record.die,
            material: record.material,
            trials: record.trials.into_iter().map(TrialV2::from).collect(),
            line: record.line.map(|line| LineV1 { a_deg: Degrees(line.a()), b: line.b() }),
            stretch: record.stretch,
            uncracked: record.uncracked,
        }
    }
}

impl From<TrialV2> for TrialFigures {
    fn from(trial: TrialV2) -> Self {
        Self {
            set: trial.set_deg.0,
            measured: trial.measured_deg.0,
            measured_radius: trial.measured_radius_mm.map(Into::into),
            drawn_length: trial.drawn_length_mm.map(Into::into),
            wall: trial.wall_mm.map(Into::into),
        }
    }
}

impl From<TrialBend> for TrialV2 {
    fn from(trial: TrialBend) -> Self {
        Self {
            set_deg: Degrees(trial.set),
            measured_deg: Degrees(trial.measured),
            measured_radius_mm: trial.measured_radius.map(Into::into),
            drawn_length_mm: trial.drawn_length.map(Into::into),
            wall_mm: trial.wall.map(Into::into),
        }
    }
}
