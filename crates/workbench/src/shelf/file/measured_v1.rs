//! Ends, hands, settings and measurements as they stand in every version of part and system files.

use elbowroom_bending::first_off::piece::Setting;
use elbowroom_bending::measurement::{MeasuredRow, Measurement};
use elbowroom_bending::{End, Hand};
use elbowroom_geometry::Point3;
use serde::{Deserialize, Serialize};

use super::numbers::{Degrees, Millimetres};

#[derive(Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum EndV1 {
    #[default]
    Start,
    Finish,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum HandV1 {
    Left,
    Right,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SettingV1 {
    feed_mm: Millimetres,
    rotation_deg: Degrees,
    set_angle_deg: Degrees,
    die_clr_mm: Millimetres,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum MeasuredV1 {
    /// Both ends and the points of each bend.
    Points { points_mm: Vec<[Millimetres; 3]> },
    /// The bends, and the straight behind the last one.
    Rows { rows: Vec<RowV1>, tail_mm: Millimetres },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RowV1 {
    straight_mm: Millimetres,
    rotation_deg: Degrees,
    angle_deg: Degrees,
}

impl From<EndV1> for End {
    fn from(end: EndV1) -> Self {
        match end {
            EndV1::Start => Self::Start,
            EndV1::Finish => Self::Finish,
        }
    }
}

impl From<End> for EndV1 {
    fn from(end: End) -> Self {
        match end {
            End::Start => Self::Start,
            End::Finish => Self::Finish,
        }
    }
}

impl From<HandV1> for Hand {
    fn from(hand: HandV1) -> Self {
        match hand {
            HandV1::Left => Self::Left,
            HandV1::Right => Self::Right,
        }
    }
}

impl From<Hand> for HandV1 {
    fn from(hand: Hand) -> Self {
        match hand {
            Hand::Left => Self::Left,
            Hand::Right => Self::Right,
        }
    }
}

impl From<SettingV1> for Setting {
    fn from(step: SettingV1) -> Self {
        Self {
            feed: step.feed_mm.into(),
            rotation: step.rotation_deg.0,
            set_angle: step.set_angle_deg.0,
            die_clr: step.die_clr_mm.into(),
        }
    }
}

impl From<Setting> for SettingV1 {
    fn from(step: Setting) -> Self {
        Self {
            feed_mm: step.feed.into(),
            rotation_deg: Degrees(step.rotation),
            set_angle_deg: Degrees(step.set_angle),
            die_clr_mm: step.die_clr.into(),
        }
    }
}

impl From<MeasuredV1> for Measurement {
    fn from(measured: MeasuredV1) -> Self {
        let row = |row: RowV1| MeasuredRow {
            straight: row.straight_mm.into(),
            rotation: row.rotation_deg.0,
            angle: row.angle_deg.0,
        };
        match measured {
            MeasuredV1::Points { points_mm } => {
                Self::Points(points_mm.into_iter().map(|[x, y, z]| Point3::new(x.0, y.0, z.0)).collect())
            }
            MeasuredV1::Rows { rows, tail_mm } => Self::Rows(rows.into_iter().map(row).collect(), tail_mm.into()),
        }
    }
}

impl From<Measurement> for MeasuredV1 {
    fn from(measurement: Measurement) -> Self {
        let row = |row: MeasuredRow| RowV1 {
            straight_mm: row.straight.into(),
            rotation_deg: Degrees(row.rotation),
            angle_deg: Degrees(row.angle),
        };
        match measurement {
            Measurement::Points(points) => {
                Self::Points { points_mm: points.iter().map(|at| [at.x, at.y, at.z].map(Millimetres)).collect() }
            }
            Measurement::Rows(rows, tail) => {
                Self::Rows { rows: rows.into_iter().map(row).collect(), tail_mm: tail.into() }
            }
        }
    }
}
