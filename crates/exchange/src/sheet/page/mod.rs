//! The pages of a sheet.

mod strip;
pub mod system;
mod templates;
mod title;
mod tube;

pub use tube::{TubePages, drawing};
