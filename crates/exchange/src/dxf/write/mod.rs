//! Writing a drawing.

mod entities;
mod file;
mod views;

pub use file::write;
