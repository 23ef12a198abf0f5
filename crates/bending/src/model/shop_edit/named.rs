//! What a person can call a thing of the shop.

use elbowroom_geometry::Refusal;

use crate::model::text::harmless;

/// A name that somebody can call something by.
pub(super) fn named(field: &str, name: &str) -> Result<String, Refusal> {
    if name.trim().is_empty() {
        return Err(Refusal::new(field, "empty", "what you call it"));
    }
    Ok(harmless(name).into_owned())
}
