//! Native files: parts and shops, in RON with a version, their storage types apart from the live ones.
//!
//! Lengths are in millimetres and angles in degrees, at full double precision: what is written reads back
//! to the bit. Unknown versions and fields are refused with the line and what would be right, and a file
//! is never half read.

mod built_in;
mod disk;
mod format;
mod materials_v1;
mod numbers;
mod part_v1;
mod path_v1;
mod piece_v1;
mod problem;
mod recovery_v1;
mod shop_v1;
mod springback_text;
mod springback_v1;
mod tube_v1;

pub use built_in::{BUILT_IN_SHOP_TEXT, DemoPart, built_in_materials, built_in_shop, demo_parts};
pub use disk::{read_text, save_atomically, save_part};
pub(crate) use format::{parse, print};
pub use problem::FileProblem;
pub(crate) use recovery_v1::{read_recovery, write_recovery};
pub(crate) use springback_text::with_springback;

use std::path::PathBuf;

use elbowroom_bending::material::Material;
use elbowroom_bending::{Part, Shop};

/// The extension of part and shop files.
pub const EXTENSION: &str = "ron";

/// The user's own shop file, which need not exist: `shop.ron` in the configuration folder. `None` where
/// the platform has no such folder.
pub fn own_shop_path() -> Option<PathBuf> {
    crate::Home::of_user().map(|home| home.own_shop())
}

/// Reads a part. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_part(text: &str, file: &str) -> Result<Part, FileProblem> {
    // Version 1 is the only one so far; a newer one is told apart here, and an old one upgraded.
    format::PART.version(text, file)?;
    parse::<part_v1::PartV1>(text, file).map(Part::from)
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
    format::SHOP.version(text, file)?;
    let shop: shop_v1::ShopV1 = parse(text, file)?;
    Shop::try_from(shop).map_err(|refusal| FileProblem::whole(file, refusal.to_string(), ""))
}

/// Reads a library of materials. `file` is what the person calls the file; it stands in the errors.
///
/// # Errors
/// Says on which line what is wrong and what would be right.
pub fn read_materials(text: &str, file: &str) -> Result<Vec<Material>, FileProblem> {
    format::MATERIALS.version(text, file)?;
    let library: materials_v1::MaterialsV1 = parse(text, file)?;
    Ok(library.materials.into_iter().map(|material| material.0).collect())
}

/// Writes a shop, to be read back to the bit by [`read_shop`].
pub fn write_shop(shop: &Shop) -> String {
    const HEAD: &str = "An Elbowroom shop: machine, tubes, die sets and clamps. Lengths in mm, angles in degrees.";
    print(HEAD, &shop_v1::ShopV1::from(shop))
}
