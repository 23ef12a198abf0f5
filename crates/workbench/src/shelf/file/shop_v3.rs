//! Shop files of version 3, apart from the live [`Shop`]: those of version 2, with more said of machine and clamps.

use elbowroom_bending::material::Material;
use elbowroom_bending::text::harmless;
use elbowroom_bending::{DieSet, Guard, Shop};
use elbowroom_geometry::Refusal;
use serde::{Deserialize, Serialize};

use super::format::parse;
use super::library::library;
use super::limits_v1::LimitsV1;
use super::materials_v1::MaterialV1;
use super::problem::FileProblem;
use super::springback_v2::SpringbackV2;
use super::tooling_v3::{DieSetV3, MachineV3};
use super::tube_v1::TubeV1;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-shop/3";

/// Reads a shop of version 3.
pub(crate) fn read(text: &str, file: &str) -> Result<Shop, FileProblem> {
    let shop: ShopV3 = parse(text, file)?;
    Shop::try_from(shop).map_err(|refusal| FileProblem::whole(file, refusal.to_string(), ""))
}

/// A shop as it stands in a file of version 3.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ShopV3 {
    pub(super) format: String,
    pub(super) name: String,
    pub(super) machine: MachineV3,
    pub(super) tubes: Vec<TubeV1>,
    pub(super) die_sets: Vec<DieSetV3>,
    /// The shop's own materials; they go before those of the library.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) materials: Vec<MaterialV1>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) springback: Vec<SpringbackV2>,
    #[serde(default)]
    pub(super) limits: LimitsV1,
}

impl TryFrom<ShopV3> for Shop {
    type Error = Refusal;

    fn try_from(file: ShopV3) -> Result<Self, Refusal> {
        let die_sets: Vec<DieSet> = file.die_sets.into_iter().map(|die| die.0).collect();
        Ok(Self {
            name: harmless(&file.name).into_owned(),
            tubes: file.tubes.into_iter().map(|tube| tube.0).collect(),
            die_sets: die_sets.sound()?,
            machine: file.machine.0,
            materials: with_library(file.materials.into_iter().map(|material| material.0).collect()),
            springback: file.springback.into_iter().map(|record| record.0).collect(),
            limits: file.limits.0,
        })
    }
}

/// The shop's own materials, and those of the library that it does not have.
fn with_library(mut own: Vec<Material>) -> Vec<Material> {
    for material in library() {
        if !own.iter().any(|mine| mine.is_called(&material.name)) {
            own.push(material);
        }
    }
    own
}

impl From<&Shop> for ShopV3 {
    fn from(shop: &Shop) -> Self {
        Self {
            format: STAMP.to_owned(),
            name: shop.name.clone(),
            machine: MachineV3(shop.machine.clone()),
            tubes: shop.tubes.iter().cloned().map(TubeV1).collect(),
            die_sets: shop.die_sets.iter().cloned().map(DieSetV3).collect(),
            materials: {
                let library = library();
                shop.materials.iter().filter(|material| !library.contains(material)).cloned().map(MaterialV1).collect()
            },
            springback: shop.springback.iter().cloned().map(SpringbackV2).collect(),
            limits: LimitsV1(shop.limits),
        }
    }
}
