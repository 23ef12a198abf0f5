//! Measured pieces, ends and hands as they stand in part and system files of version 1.

use elbowroom_bending::first_off::piece::{Piece, Setting};
use elbowroom_bending::measurement::{MeasuredRow, Measurement};
use elbowroom_bending::{End, Hand};
use elbowroom_geometry::{Point3, Refusal};
use serde::{Deserialize, Serialize};

use super::numbers::{Degrees, Millimetres};
use super::tube_v1::TubeV1;

/// A piece in a file; its numbers have passed the guards of [`Piece::check`].
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "PieceFields", into = "PieceFields")]
pub(crate) struct PieceV1(pub Piece);

#[derive(Serialize, Deserialize)]
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
    steps: Vec<SettingFields>,
    /// The number of the piece after which the program was corrected, 0 for the plan.
    #[serde(default)]
    corrected_after: usize,
    /// From the lead end of the drawing to its tail.
    measured: MeasuredFields,
}

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
struct SettingFields {
    feed_mm: Millimetres,
    rotation_deg: Degrees,
    set_angle_deg: Degrees,
    die_clr_mm: Millimetres,
}

#[derive(Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
enum MeasuredFields {
    /// Both ends and the points of each bend.
    Points { points_mm: Vec<[Millimetres; 3]> },
    /// The bends, and the straight behind the last one.
    Rows { rows: Vec<RowFields>, tail_mm: Millimetres },
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RowFields {
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

impl TryFrom<PieceFields> for PieceV1 {
    type Error = Refusal;

    fn try_from(fields: PieceFields) -> Result<Self, Refusal> {
        let setting = |step: SettingFields| Setting {
            feed: step.feed_mm.into(),
            rotation: step.rotation_deg.0,
            set_angle: step.set_angle_deg.0,
            die_clr: step.die_clr_mm.into(),
        };
        let row = |row: RowFields| MeasuredRow {
            straight: row.straight_mm.into(),
            rotation: row.rotation_deg.0,
            angle: row.angle_deg.0,
        };
        let piece = Piece {
            from: fields.from.into(),
            hand: fields.hand.into(),
            tube: fields.tube.0,
            blank: fields.blank_mm.into(),
            lead_trim: fields.lead_trim_mm.into(),
            tail_trim: fields.tail_trim_mm.into(),
            steps: fields.steps.into_iter().map(setting).collect(),
            corrected_after: fields.corrected_after,
            measurement: match fields.measured {
                MeasuredFields::Points { points_mm } => {
                    Measurement::Points(points_mm.into_iter().map(|[x, y, z]| Point3::new(x.0, y.0, z.0)).collect())
                }
                MeasuredFields::Rows { rows, tail_mm } => {
                    Measurement::Rows(rows.into_iter().map(row).collect(), tail_mm.into())
                }
            },
        };
        piece.check(fields.corrected_after + 1)?;
        Ok(Self(piece))
    }
}

impl From<PieceV1> for PieceFields {
    fn from(PieceV1(piece): PieceV1) -> Self {
        Self {
            from: piece.from.into(),
            hand: piece.hand.into(),
            tube: TubeV1(piece.tube),
            blank_mm: piece.blank.into(),
            lead_trim_mm: piece.lead_trim.into(),
            tail_trim_mm: piece.tail_trim.into(),
            steps: piece
                .steps
                .into_iter()
                .map(|step| SettingFields {
                    feed_mm: step.feed.into(),
                    rotation_deg: Degrees(step.rotation),
                    set_angle_deg: Degrees(step.set_angle),
                    die_clr_mm: step.die_clr.into(),
                })
                .collect(),
            corrected_after: piece.corrected_after,
            measured: match piece.measurement {
                Measurement::Points(points) => MeasuredFields::Points {
                    points_mm: points.iter().map(|at| [at.x, at.y, at.z].map(Millimetres)).collect(),
                },
                Measurement::Rows(rows, tail) => MeasuredFields::Rows {
                    rows: rows
                        .into_iter()
                        .map(|row| RowFields {
                            straight_mm: row.straight.into(),
                            rotation_deg: Degrees(row.rotation),
                            angle_deg: Degrees(row.angle),
                        })
                        .collect(),
                    tail_mm: tail.into(),
                },
            },
        }
    }
}
