//! Shop files of version 1, apart from the live [`Shop`].

use elbowroom_bending::Shop;
use serde::Deserialize;

use super::format::parse;
use super::limits_v1::LimitsV1;
use super::materials_v1::MaterialV1;
use super::problem::FileProblem;
use super::shop_v2::ShopV2;
use super::shop_v3::ShopV3;
use super::springback_v1::SpringbackV1;
use super::springback_v2::SpringbackV2;
use super::tooling_v1::{DieSetV1, MachineV1};
use super::tube_v1::TubeV1;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-shop/1";

/// Reads a shop of version 1.
pub(crate) fn read(text: &str, file: &str) -> Result<Shop, FileProblem> {
    let shop: ShopV1 = parse(text, file)?;
    Shop::try_from(ShopV3::from(ShopV2::from(shop)))
        .map_err(|refusal| FileProblem::whole(file, refusal.to_string(), ""))
}

/// A shop as it stands in a file of version 1.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ShopV1 {
    format: String,
    name: String,
    machine: MachineV1,
    tubes: Vec<TubeV1>,
    die_sets: Vec<DieSetV1>,
    /// The shop's own materials; they go before those of the library.
    #[serde(default)]
    materials: Vec<MaterialV1>,
    #[serde(default)]
    springback: Vec<SpringbackV1>,
    #[serde(default)]
    limits: LimitsV1,
}

/// Nobody asked for walls and cracks in version 1.
impl From<ShopV1> for ShopV2 {
    fn from(older: ShopV1) -> Self {
        Self {
            format: older.format,
            name: older.name,
            machine: older.machine,
            tubes: older.tubes,
            die_sets: older.die_sets,
            materials: older.materials,
            springback: older.springback.into_iter().map(|record| SpringbackV2(record.0)).collect(),
            limits: older.limits,
        }
    }
}
