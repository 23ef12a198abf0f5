//! Trial bends as they stand in a shop file of version 1.

use elbowroom_bending::Guard;
use elbowroom_bending::forming::process::{RecordFigures, SpringbackRecord};
use elbowroom_bending::forming::springback::{SpringbackLine, TrialFigures};
use elbowroom_geometry::Refusal;
use serde::Deserialize;

use super::limits_v1::LineV1;
use super::numbers::{Degrees, Millimetres};

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

impl TryFrom<RecordFields> for SpringbackV1 {
    type Error = Refusal;

    fn try_from(fields: RecordFields) -> Result<Self, Refusal> {
        let trial = |(index, trial): (usize, TrialV1)| {
            TrialFigures::from(trial).sound().map_err(|refusal| refusal.of(format_args!("trial {}", index + 1)))
        };
        RecordFigures {
            trials: fields.trials.into_iter().enumerate().map(trial).collect::<Result<_, _>>()?,
            line: fields.line.map(|line| SpringbackLine::new(line.a_deg.0, line.b)).transpose()?,
            stretch: fields.stretch,
            uncracked: false,
            die: fields.die,
            material: fields.material,
        }
        .sound()
        .map(Self)
    }
}

impl From<TrialV1> for TrialFigures {
    fn from(trial: TrialV1) -> Self {
        Self {
            set: trial.set_deg.0,
            measured: trial.measured_deg.0,
            measured_radius: trial.measured_radius_mm.map(Into::into),
            drawn_length: trial.drawn_length_mm.map(Into::into),
            wall: None,
        }
    }
}
