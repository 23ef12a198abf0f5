//! What the program carries with it: the default shop, the materials library and the demo parts.

use elbowroom_bending::material::Material;
use elbowroom_bending::{Part, Shop};

use super::library::library;
use super::problem::FileProblem;
use super::reading::{read_part, read_shop};

/// The text of the default shop, with its comments; what a user's own copy starts from.
pub const BUILT_IN_SHOP_TEXT: &str = include_str!("../../../../../assets/shop.ron");

/// File stem and text of each demo part, by name.
const DEMO_PARTS: &[(&str, &str)] = include!(concat!(env!("OUT_DIR"), "/demo_parts.rs"));

/// A part that the program brings along.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DemoPart {
    /// The name it is opened by: its file's name without the extension.
    pub name: &'static str,
    text: &'static str,
}

impl DemoPart {
    /// The part.
    ///
    /// # Errors
    /// Never, as a test reads them all; but a broken one is told and not fatal.
    pub fn read(&self) -> Result<Part, FileProblem> {
        read_part(self.text, &format!("demo-parts/{}.ron", self.name))
    }

    /// Its file's text.
    pub fn text(&self) -> &'static str {
        self.text
    }

    /// What it shows, in one line: the first sentence of its note.
    pub fn purpose(&self) -> String {
        let note = self.read().map(|part| part.note).unwrap_or_default();
        match note.split_once(". ") {
            Some((first, _)) => format!("{first}."),
            None => note,
        }
    }
}

/// The demo parts, in the order of their names.
pub fn demo_parts() -> impl ExactSizeIterator<Item = DemoPart> {
    DEMO_PARTS.iter().map(|&(name, text)| DemoPart { name, text })
}

/// The default shop. Its figures are common practice.
pub fn built_in_shop() -> Shop {
    read_shop(BUILT_IN_SHOP_TEXT, "assets/shop.ron").expect("the shop that is built in is read by a test")
}

/// The materials library. Each figure carries its source.
pub fn built_in_materials() -> Vec<Material> {
    library()
}
