//! Springback lines and a shop's limits as they stand in every version of shop files.

use elbowroom_bending::Guard;
use elbowroom_bending::forming::process::{LimitFigures, Limits};
use elbowroom_bending::forming::wall::WallRule;
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::basis_v1::BasisV1;
use super::numbers::Degrees;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LineV1 {
    pub(super) a_deg: Degrees,
    pub(super) b: f64,
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
