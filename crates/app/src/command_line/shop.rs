//! Which shop a part is checked against.

use std::path::Path;

use elbowroom_bending::Shop;
use elbowroom_bending::text::shown_path;
use elbowroom_workbench::file::{FileProblem, built_in_shop, own_shop_path, read_shop, read_text};

use super::Failure;

/// The word that asks for the built-in shop whatever else there is.
const BUILT_IN: &str = "built-in";

/// A shop and where it comes from, in words.
pub struct ChosenShop {
    /// The shop.
    pub shop: Shop,
    /// Where it comes from, such as `built in`.
    pub from: String,
}

/// The shop that was asked for; else the user's own; else the built-in one.
///
/// # Errors
/// Says what is wrong with the shop file, whether it was asked for or is the user's own.
pub fn chosen(asked_for: Option<&Path>) -> Result<ChosenShop, Failure> {
    if let Some(file) = asked_for.filter(|file| *file != Path::new(BUILT_IN)) {
        return Ok(ChosenShop { shop: read(file)?, from: shown_path(file) });
    }
    let own = own_shop_path().filter(|path| asked_for.is_none() && path.exists());
    Ok(match own {
        Some(path) => ChosenShop { shop: read(&path)?, from: format!("{}, your own", shown_path(&path)) },
        None => ChosenShop { shop: built_in_shop(), from: "built in".into() },
    })
}

fn read(file: &Path) -> Result<Shop, FileProblem> {
    read_shop(&read_text(file)?, &file.display().to_string())
}
