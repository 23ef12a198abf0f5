//! What the program carries with it: the default shop and the materials library.

use std::sync::OnceLock;

use elbowroom_bending::Shop;
use elbowroom_bending::material::Material;

use super::{read_materials, read_shop};

/// The text of the default shop, with its comments; what a user's own copy starts from.
pub const BUILT_IN_SHOP_TEXT: &str = include_str!("../../../../assets/shop.ron");

/// The default shop. Its figures are common practice.
pub fn built_in_shop() -> Shop {
    read_shop(BUILT_IN_SHOP_TEXT, "assets/shop.ron").expect("the shop that is built in is read by a test")
}

/// The materials library. Each figure carries its source.
pub fn built_in_materials() -> Vec<Material> {
    static LIBRARY: OnceLock<Vec<Material>> = OnceLock::new();
    const TEXT: &str = include_str!("../../../../assets/materials.ron");
    LIBRARY
        .get_or_init(|| {
            read_materials(TEXT, "assets/materials.ron").expect("the library that is built in is read by a test")
        })
        .clone()
}
