//! How what a sheet says is set on its pages.

mod flow;
mod section;
mod table;

pub use flow::{FOOT, INSIDE, content, flow, width};
pub use section::{Breadth, Piece, Section, TEXT, hanging, heading, paragraphs};
pub use table::{Cell, Table};
