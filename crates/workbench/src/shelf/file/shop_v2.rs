//! Shop files of version 2, apart from the live [`Shop`]: those of version 1, with more said of trial bends.

use elbowroom_bending::Shop;
use serde::Deserialize;

use super::format::parse;
use super::limits_v1::LimitsV1;
use super::materials_v1::MaterialV1;
use super::problem::FileProblem;
use super::shop_v3::ShopV3;
use super::springback_v2::SpringbackV2;
use super::tooling_v1::{DieSetV1, MachineV1};
use super::tube_v1::TubeV1;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-shop/2";

/// Reads a shop of version 2.
pub(crate) fn read(text: &str, file: &str) -> Result<Shop, FileProblem> {
    let shop: ShopV2 = parse(text, file)?;
    Shop::try_from(ShopV3::from(shop)).map_err(|refusal| FileProblem::whole(file, refusal.to_string(), ""))
}

/// A shop as it stands in a file of version 2.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ShopV2 {
    pub(super) format: String,
    pub(super) name: String,
    pub(super) machine: MachineV1,
    pub(super) tubes: Vec<TubeV1>,
    pub(super) die_sets: Vec<DieSetV1>,
    /// The shop's own materials; they go before those of the library.
    #[serde(default)]
    pub(super) materials: Vec<MaterialV1>,
    #[serde(default)]
    pub(super) springback: Vec<SpringbackV2>,
    #[serde(default)]
    pub(super) limits: LimitsV1,
}

/// Nobody asked in version 2 how rotations are set and on which tube a clamp has proved itself.
impl From<ShopV2> for ShopV3 {
    fn from(older: ShopV2) -> Self {
        Self {
            format: older.format,
            name: older.name,
            machine: older.machine.0,
            tubes: older.tubes,
            die_sets: older.die_sets.into_iter().map(|die| die.0).collect(),
            materials: older.materials,
            springback: older.springback,
            limits: older.limits,
        }
    }
}
