//! Native files: systems and shops, in RON with a version, their storage types apart from the live ones.
//!
//! Lengths are in millimetres and angles in degrees, at full double precision: what is written reads back
//! to the bit. Unknown versions and fields are refused with the line and what would be right, and a file
//! is never half read.

mod basis_v1;
mod built_in;
mod certain;
mod choice_v2;
mod format;
mod in_words;
mod keep_v1;
mod kinds;
mod library;
mod limits_v1;
mod materials_v1;
mod measured_v1;
mod numbers;
mod obstacle_v1;
mod part_v1;
mod path_v1;
mod piece_v1;
mod piece_v2;
mod problem;
mod reading;
mod recovery_v1;
mod recovery_v2;
mod recovery_v3;
mod recovery_v4;
mod recovery_v5;
mod shop_text;
mod shop_v1;
mod shop_v2;
mod shop_v3;
mod springback_v1;
mod springback_v2;
mod stock_v1;
mod system_tube_v1;
mod system_tube_v2;
mod system_tube_v3;
mod system_v1;
mod system_v2;
mod system_v3;
mod system_v4;
mod tokens;
mod tooling_v1;
mod tooling_v3;
mod tree;
mod tube_v1;
mod woven;

pub(crate) use super::disk::read_plain_bytes;
pub use super::disk::{
    Disk, RealDisk, read_bytes, read_bytes_up_to, read_plain_text, read_text, save_atomically, sweep, sweep_beside,
    text_of,
};
pub use super::settings::{Settings, read_settings};
pub use built_in::{BUILT_IN_SHOP_TEXT, DemoPart, built_in_materials, built_in_shop, demo_parts};
pub(crate) use certain::certain_text;
pub(crate) use format::{parse, print};
pub use problem::FileProblem;
pub(crate) use reading::shop_raised;
pub use reading::{
    older_stamp, read_materials, read_part, read_recovery, read_shop, read_system, todays_stamp, write_part,
    write_shop, write_system,
};
pub use recovery_v5::Recovered;
pub(crate) use recovery_v5::write_recovery;
pub(crate) use shop_text::with_shop;
pub(crate) use tokens::outer_fields;

use std::path::PathBuf;

/// The extension of system and shop files.
pub const EXTENSION: &str = "ron";

/// The user's own shop file, which need not exist: `shop.ron` in the configuration folder. `None` where
/// the platform has no such folder.
pub fn own_shop_path() -> Option<PathBuf> {
    crate::Home::of_user().map(|home| home.own_shop())
}
