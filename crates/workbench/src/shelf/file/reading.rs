//! Native files read and written by the kind that they are.

use elbowroom_bending::material::Material;
use elbowroom_bending::{Part, Shop};

use super::format::print;
use super::problem::FileProblem;
use super::recovery_v1::Recovered;
use super::{kinds, part_v1, shop_v1};

/// Reads a part. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_part(text: &str, file: &str) -> Result<Part, FileProblem> {
    kinds::PART.read(text, file)
}

/// Writes a part, to be read back to the bit by [`read_part`].
pub fn write_part(part: &Part) -> String {
    const HEAD: &str =
        "An Elbowroom part: a bent tube from its lead end to its tail. Lengths in mm, angles in degrees.";
    print(HEAD, &part_v1::PartV1::from(part))
}

/// Reads a shop. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_shop(text: &str, file: &str) -> Result<Shop, FileProblem> {
    kinds::SHOP.read(text, file)
}

/// Writes a shop, to be read back to the bit by [`read_shop`].
pub fn write_shop(shop: &Shop) -> String {
    const HEAD: &str = "An Elbowroom shop: machine, tubes, die sets and clamps. Lengths in mm, angles in degrees.";
    print(HEAD, &shop_v1::ShopV1::from(shop))
}

/// Reads a library of materials. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_materials(text: &str, file: &str) -> Result<Vec<Material>, FileProblem> {
    kinds::MATERIALS.read(text, file)
}

/// Reads a recovery file: the part, and its own file.
///
/// # Errors
/// Says on which line what is wrong.
pub(crate) fn read_recovery(text: &str, name: &str) -> Result<Recovered, FileProblem> {
    kinds::RECOVERY.read(text, name)
}
