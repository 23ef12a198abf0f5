//! Pages as files.

mod pdf;
mod svg;

pub use pdf::pdf;
pub use svg::svg;
