//! What the program carries with it: the default shop.

use elbowroom_bending::Shop;

use super::read_shop;

/// The text of the default shop, with its comments; what a user's own copy starts from.
pub const BUILT_IN_SHOP_TEXT: &str = include_str!("../../../../assets/shop.ron");

/// The default shop. Its figures are common practice.
pub fn built_in_shop() -> Shop {
    read_shop(BUILT_IN_SHOP_TEXT, "assets/shop.ron").expect("the shop that is built in is read by a test")
}
