//! The pages of a sheet.

mod strip;
mod templates;
mod title;
mod tube;

pub use tube::{TubePages, drawing};
