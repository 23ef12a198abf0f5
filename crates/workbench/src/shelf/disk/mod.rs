//! Files on disk: read whole and with a limit, written whole or not at all, and no litter left behind.

#[cfg(test)]
pub(crate) mod faulty;
mod litter;
mod read;
mod seen;
mod steps;
#[cfg(test)]
mod tests;
mod through;
mod words;
mod write;

pub use litter::{sweep, sweep_beside};
pub(crate) use read::{is_nothing_there, read_plain_bytes};
pub use read::{read_bytes, read_bytes_up_to, read_plain_text, read_text, text_of};
pub(crate) use seen::Seen;
pub use steps::{Disk, RealDisk};
pub(crate) use words::reason;
pub use write::save_atomically;
pub(crate) use write::{Written, write_whole};
