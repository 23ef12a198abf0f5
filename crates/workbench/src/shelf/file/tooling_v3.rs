//! Machines, die sets and clamps as they stand in a shop file of version 3: a machine says how it is told a rotation, and a
//! clamp on which tube it has proved itself.

use elbowroom_bending::{
    Clamp, ClampFigures, DieSet, DieSetFigures, Guard, Machine, MachineFigures, ProvedOn, RotationSetting,
};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::basis_v1::{BasisV1, MachineHandV1};
use super::numbers::{Degrees, Millimetres};

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum RotationV3 {
    #[default]
    Turn,
    Reading,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "MachineFieldsV3", into = "MachineFieldsV3")]
pub(super) struct MachineV3(pub(super) Machine);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct MachineFieldsV3 {
    pub(super) name: String,
    pub(super) longest_blank_mm: Millimetres,
    pub(super) tail_hold_mm: Millimetres,
    pub(super) largest_angle_deg: Degrees,
    pub(super) hand: MachineHandV1,
    #[serde(default)]
    pub(super) rotation: RotationV3,
    pub(super) square_end_diameters: f64,
    pub(super) basis: BasisV1,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "DieSetFieldsV3", into = "DieSetFieldsV3")]
pub(super) struct DieSetV3(pub(super) DieSet);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DieSetFieldsV3 {
    pub(super) name: String,
    pub(super) od_mm: Millimetres,
    pub(super) clr_mm: Millimetres,
    pub(super) largest_angle_deg: Degrees,
    pub(super) mark_free_bite_mm: Millimetres,
    pub(super) largest_bite_mm: Millimetres,
    pub(super) basis: BasisV1,
    pub(super) clamps: Vec<ClampV3>,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "ClampFieldsV3", into = "ClampFieldsV3")]
pub(super) struct ClampV3(pub(super) Clamp);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ClampFieldsV3 {
    pub(super) length_mm: Millimetres,
    pub(super) proved_to_deg: Degrees,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) proved_on: Option<ProvedOnV3>,
    pub(super) basis: BasisV1,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ProvedOnV3 {
    wall_mm: Millimetres,
    material: String,
}

impl TryFrom<MachineFieldsV3> for MachineV3 {
    type Error = Refusal;

    fn try_from(fields: MachineFieldsV3) -> Result<Self, Refusal> {
        let figures = MachineFigures {
            name: fields.name,
            longest_blank: fields.longest_blank_mm.into(),
            tail_hold: fields.tail_hold_mm.into(),
            largest_angle: fields.largest_angle_deg.0,
            hand: fields.hand.into(),
            square_end_diameters: fields.square_end_diameters,
            rotation: match fields.rotation {
                RotationV3::Turn => RotationSetting::Turn,
                RotationV3::Reading => RotationSetting::Reading,
            },
            basis: fields.basis.into(),
        };
        figures.sound().map(Self)
    }
}

impl From<MachineV3> for MachineFieldsV3 {
    fn from(MachineV3(machine): MachineV3) -> Self {
        let machine = machine.into_figures();
        Self {
            name: machine.name,
            longest_blank_mm: machine.longest_blank.into(),
            tail_hold_mm: machine.tail_hold.into(),
            largest_angle_deg: Degrees(machine.largest_angle),
            hand: machine.hand.into(),
            rotation: match machine.rotation {
                RotationSetting::Turn => RotationV3::Turn,
                RotationSetting::Reading => RotationV3::Reading,
            },
            square_end_diameters: machine.square_end_diameters,
            basis: machine.basis.into(),
        }
    }
}

impl TryFrom<ClampFieldsV3> for ClampV3 {
    type Error = Refusal;

    fn try_from(fields: ClampFieldsV3) -> Result<Self, Refusal> {
        let proved_on = |tube: ProvedOnV3| ProvedOn { wall: tube.wall_mm.into(), material: tube.material };
        let figures = ClampFigures {
            length: fields.length_mm.into(),
            proved_angle: fields.proved_to_deg.0,
            basis: fields.basis.into(),
            proved_on: fields.proved_on.map(proved_on),
        };
        figures.sound().map(Self)
    }
}

impl From<ClampV3> for ClampFieldsV3 {
    fn from(ClampV3(clamp): ClampV3) -> Self {
        let clamp = clamp.into_figures();
        let proved_on = |tube: ProvedOn| ProvedOnV3 { wall_mm: tube.wall.into(), material: tube.material };
        Self {
            length_mm: clamp.length.into(),
            proved_to_deg: Degrees(clamp.proved_angle),
            proved_on: clamp.proved_on.map(proved_on),
            basis: clamp.basis.into(),
        }
    }
}

impl TryFrom<DieSetFieldsV3> for DieSetV3 {
    type Error = Refusal;

    fn try_from(fields: DieSetFieldsV3) -> Result<Self, Refusal> {
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

impl From<DieSetV3> for DieSetFieldsV3 {
    fn from(DieSetV3(die): DieSetV3) -> Self {
        let die = die.into_figures();
        Self {
            name: die.name,
            od_mm: die.od.into(),
            clr_mm: die.clr.into(),
            largest_angle_deg: Degrees(die.largest_angle),
            mark_free_bite_mm: die.mark_free_bite.into(),
            largest_bite_mm: die.largest_bite.into(),
            basis: die.basis.into(),
            clamps: die.clamps.into_iter().map(ClampV3).collect(),
        }
    }
}
