//! What a figure rests on and the hand of a machine, as they stand in every version of shop files.

use elbowroom_bending::{Basis, Hand};
use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum BasisV1 {
    CommonPractice,
    Shop,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum MachineHandV1 {
    Right,
    Left,
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

impl From<MachineHandV1> for Hand {
    fn from(hand: MachineHandV1) -> Self {
        match hand {
            MachineHandV1::Right => Self::Right,
            MachineHandV1::Left => Self::Left,
        }
    }
}

impl From<Hand> for MachineHandV1 {
    fn from(hand: Hand) -> Self {
        match hand {
            Hand::Right => Self::Right,
            Hand::Left => Self::Left,
        }
    }
}
