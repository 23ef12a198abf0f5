//! Machines, die sets and clamps as they stand in every version of shop files.

use elbowroom_bending::{Basis, Clamp, ClampFigures, DieSet, DieSetFigures, Guard, Hand, Machine, MachineFigures};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::numbers::{Degrees, Millimetres};

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum BasisV1 {
    CommonPractice,
    Shop,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum HandV1 {
    Right,
    Left,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "MachineFields", into = "MachineFields")]
pub(super) struct MachineV1(pub(super) Machine);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct MachineFields {
    name: String,
    longest_blank_mm: Millimetres,
    tail_hold_mm: Millimetres,
    largest_angle_deg: Degrees,
    hand: HandV1,
    square_end_diameters: f64,
    basis: BasisV1,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "DieSetFields", into = "DieSetFields")]
pub(super) struct DieSetV1(pub(super) DieSet);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct DieSetFields {
    name: String,
    od_mm: Millimetres,
    clr_mm: Millimetres,
    largest_angle_deg: Degrees,
    mark_free_bite_mm: Millimetres,
    largest_bite_mm: Millimetres,
    basis: BasisV1,
    clamps: Vec<ClampV1>,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "ClampFields", into = "ClampFields")]
struct ClampV1(Clamp);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ClampFields {
    length_mm: Millimetres,
    proved_to_deg: Degrees,
    basis: BasisV1,
}

impl From<BasisV1> for Basis {
    fn from(basis: BasisV1) -> Self {
        match basis {
            BasisV1::CommonPractice => Self::CommonPractice,
            BasisV1::Shop => Self::Shop,
        }
    }
}

impl From<Basis> for BasisV1 {
    fn from(basis: Basis) -> Self {
        match basis {
            Basis::CommonPractice => Self::CommonPractice,
            Basis::Shop => Self::Shop,
        }
    }
}

impl TryFrom<MachineFields> for MachineV1 {
    type Error = Refusal;

    fn try_from(fields: MachineFields) -> Result<Self, Refusal> {
        let figures = MachineFigures {
            name: fields.name,
            longest_blank: fields.longest_blank_mm.into(),
            tail_hold: fields.tail_hold_mm.into(),
            largest_angle: fields.largest_angle_deg.0,
            hand: match fields.hand {
                HandV1::Right => Hand::Right,
                HandV1::Left => Hand::Left,
            },
            square_end_diameters: fields.square_end_diameters,
            basis: fields.basis.into(),
        };
        figures.sound().map(Self)
    }
}

impl From<MachineV1> for MachineFields {
    fn from(MachineV1(machine): MachineV1) -> Self {
        let machine = machine.into_figures();
        Self {
            name: machine.name,
            longest_blank_mm: machine.longest_blank.into(),
            tail_hold_mm: machine.tail_hold.into(),
            largest_angle_deg: Degrees(machine.largest_angle),
            hand: match machine.hand {
                Hand::Right => HandV1::Right,
                Hand::Left => HandV1::Left,
            },
            square_end_diameters: machine.square_end_diameters,
            basis: machine.basis.into(),
        }
    }
}

impl TryFrom<ClampFields> for ClampV1 {
    type Error = Refusal;

    fn try_from(fields: ClampFields) -> Result<Self, Refusal> {
        let basis = fields.basis.into();
        let figures = ClampFigures { length: fields.length_mm.into(), proved_angle: fields.proved_to_deg.0, basis };
        figures.sound().map(Self)
    }
}

impl From<ClampV1> for ClampFields {
    fn from(ClampV1(clamp): ClampV1) -> Self {
        let basis = clamp.basis.into();
        Self { length_mm: clamp.length.into(), proved_to_deg: Degrees(clamp.proved_angle), basis }
    }
}

impl TryFrom<DieSetFields> for DieSetV1 {
    type Error = Refusal;

    fn try_from(fields: DieSetFields) -> Result<Self, Refusal> {
        let figures = DieSetFigures {
            name: fields.name,
            od: fields.od_mm.into(),
            clr: fields.clr_mm.into(),
            clamps: fields.clamps.into_iter().map(|clamp| clamp.0).collect(),
            mark_free_bite: fields.mark_free_bite_mm.into(),
            largest_bite: fields.largest_bite_mm.into(),
            largest_angle: fields.largest_angle_deg.0,
            basis: fields.basis.into(),
        };
        figures.sound().map(Self)
    }
}

impl From<DieSetV1> for DieSetFields {
    fn from(DieSetV1(die): DieSetV1) -> Self {
        let die = die.into_figures();
        Self {
            name: die.name,
            od_mm: die.od.into(),
            clr_mm: die.clr.into(),
            largest_angle_deg: Degrees(die.largest_angle),
            mark_free_bite_mm: die.mark_free_bite.into(),
            largest_bite_mm: die.largest_bite.into(),
            basis: die.basis.into(),
            clamps: die.clamps.into_iter().map(ClampV1).collect(),
        }
    }
}
