//! The materials library that the program carries with it.

use std::sync::OnceLock;

use elbowroom_bending::material::Material;

use super::materials_v1;

/// The library. Each figure carries its source.
pub(crate) fn library() -> Vec<Material> {
    static LIBRARY: OnceLock<Vec<Material>> = OnceLock::new();
    const TEXT: &str = include_str!("../../../../../assets/materials.ron");
    LIBRARY
        .get_or_init(|| {
            materials_v1::read(TEXT, "assets/materials.ron").expect("the library that is built in is read by a test")
        })
        .clone()
}
