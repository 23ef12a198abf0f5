//! The shelf: files, recovery, settings, and the shop's own file.

pub(crate) mod disk;
pub mod file;
pub(crate) mod home;
pub(crate) mod keeper;
pub mod measured_table;
pub(crate) mod other_formats;
pub(crate) mod recovery;
pub(crate) mod saver;
pub(crate) mod seen_from;
pub(crate) mod settings;
pub(crate) mod under_way;
