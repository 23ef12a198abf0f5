//! Trial bends, springback lines and the shop's limits as they stand in a shop file of version 1.

use elbowroom_bending::Guard;
use elbowroom_bending::forming::process::{LimitFigures, Limits, RecordFigures, SpringbackRecord};
use elbowroom_bending::forming::springback::{SpringbackLine, TrialFigures};
use elbowroom_bending::forming::wall::WallRule;
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::numbers::{Degrees, Millimetres};
use super::shop_v1::BasisV1;

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

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LineV1 {
    pub(super) a_deg: Degrees,
    pub(super) b: f64,
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

/// The limits a shop sets itself.
#[derive(Clone, Default, Serialize, Deserialize)]
#[serde(try_from = "LimitsFields", into = "LimitsFields")]
pub(crate) struct LimitsV1(pub Limits);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct LimitsFields {
    wall_rule: WallRuleV1,
    least_wall: f64,
    seam_from_outside_deg: Degrees,
    basis: BasisV1,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum WallRuleV1 {
    TubeExchanger,
    PowerPiping,
    RadiusRatio,
    FreeHoop,
}

impl TryFrom<LimitsFields> for LimitsV1 {
    type Error = Refusal;

    fn try_from(fields: LimitsFields) -> Result<Self, Refusal> {
        let figures = LimitFigures {
            wall_rule: match fields.wall_rule {
                WallRuleV1::TubeExchanger => WallRule::TubeExchanger,
                WallRuleV1::PowerPiping => WallRule::PowerPiping,
                WallRuleV1::RadiusRatio => WallRule::RadiusRatio,
                WallRuleV1::FreeHoop => WallRule::FreeHoop,
            },
            least_wall: fields.least_wall,
            seam_from_outside: fields.seam_from_outside_deg.0,
            basis: fields.basis.into(),
        };
        figures.sound().map(Self)
    }
}

impl From<LimitsV1> for LimitsFields {
    fn from(LimitsV1(limits): LimitsV1) -> Self {
        Self {
            wall_rule: match limits.wall_rule {
                WallRule::TubeExchanger => WallRuleV1::TubeExchanger,
                WallRule::PowerPiping => WallRuleV1::PowerPiping,
                WallRule::RadiusRatio => WallRuleV1::RadiusRatio,
                WallRule::FreeHoop => WallRuleV1::FreeHoop,
            },
            least_wall: limits.least_wall,
            seam_from_outside_deg: Degrees(limits.seam_from_outside),
            basis: limits.basis.into(),
        }
    }
}
