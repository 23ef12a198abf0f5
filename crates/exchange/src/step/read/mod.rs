//! Reading a STEP file: its records, then what they place where, then the faces of solids, then the tubes that these are.

mod exchange;
mod faces;
mod file;
mod instances;
mod place;
mod scan;
mod solids;
mod tubes;
mod units;
mod value;

pub use file::read;
