//! Machines, die sets and clamps as they stand in shop files of versions 1 and 2.

use elbowroom_geometry::Refusal;
use serde::Deserialize;

use super::basis_v1::{BasisV1, MachineHandV1};
use super::numbers::{Degrees, Millimetres};
use super::tooling_v3::{ClampFieldsV3, ClampV3, DieSetFieldsV3, DieSetV3, MachineFieldsV3, MachineV3, RotationV3};

#[derive(Deserialize)]
#[serde(try_from = "MachineFields")]
pub(super) struct MachineV1(pub(super) MachineV3);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MachineFields {
    name: String,
    longest_blank_mm: Millimetres,
    tail_hold_mm: Millimetres,
    largest_angle_deg: Degrees,
    hand: MachineHandV1,
    square_end_diameters: f64,
    basis: BasisV1,
}

#[derive(Deserialize)]
#[serde(try_from = "DieSetFields")]
pub(super) struct DieSetV1(pub(super) DieSetV3);

#[derive(Deserialize)]
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

#[derive(Deserialize)]
#[serde(try_from = "ClampFields")]
struct ClampV1(ClampV3);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ClampFields {
    length_mm: Millimetres,
    proved_to_deg: Degrees,
    basis: BasisV1,
}

impl TryFrom<MachineFields> for MachineV1 {
    type Error = Refusal;

    fn try_from(older: MachineFields) -> Result<Self, Refusal> {
        let fields = MachineFieldsV3 {
            name: older.name,
            longest_blank_mm: older.longest_blank_mm,
            tail_hold_mm: older.tail_hold_mm,
            largest_angle_deg: older.largest_angle_deg,
            hand: older.hand,
            // Nobody was asked, and every program told turns.
            rotation: RotationV3::Turn,
            square_end_diameters: older.square_end_diameters,
            basis: older.basis,
        };
        MachineV3::try_from(fields).map(Self)
    }
}

impl TryFrom<ClampFields> for ClampV1 {
    type Error = Refusal;

    fn try_from(older: ClampFields) -> Result<Self, Refusal> {
        let fields = ClampFieldsV3 {
            length_mm: older.length_mm,
            proved_to_deg: older.proved_to_deg,
            // Nobody was asked on which tube.
            proved_on: None,
            basis: older.basis,
        };
        ClampV3::try_from(fields).map(Self)
    }
}

impl TryFrom<DieSetFields> for DieSetV1 {
    type Error = Refusal;

    fn try_from(older: DieSetFields) -> Result<Self, Refusal> {
        let fields = DieSetFieldsV3 {
            name: older.name,
            od_mm: older.od_mm,
            clr_mm: older.clr_mm,
            largest_angle_deg: older.largest_angle_deg,
            mark_free_bite_mm: older.mark_free_bite_mm,
            largest_bite_mm: older.largest_bite_mm,
            basis: older.basis,
            clamps: older.clamps.into_iter().map(|clamp| clamp.0).collect(),
        };
        DieSetV3::try_from(fields).map(Self)
    }
}
