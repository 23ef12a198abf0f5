//! Pages as files.

mod listed;
mod pdf;
mod svg;

pub use listed::listed;
pub use pdf::pdf;
pub use svg::svg;
