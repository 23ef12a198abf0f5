//! Reading a drawing: its pairs of code and value, then its entities, then the centrelines that these are.

mod entities;
mod file;
mod pairs;

pub use file::read;
