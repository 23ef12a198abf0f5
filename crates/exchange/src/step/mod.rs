//! STEP files (ISO 10303-21): the tubes as exact solids, out and in.
//!
//! Written is AP214: each tube a hollow solid of cylinders, tori and two plane ends, in mm, a product of its own. Read
//! are AP203, AP214 and AP242, in any unit of length, for the tubes that solids of cylinders and tori are.

mod read;
mod write;

pub use read::read;
pub use write::write;
