//! Writing a STEP file.

mod colour;
mod file;
mod product;
mod records;
mod tube;

pub use file::write;
