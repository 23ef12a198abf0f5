//! What a sheet is drawn with: paper, letters, lines, all plain values in mm.

mod draw;
mod face;
mod page;
mod paper;
mod wrap;

pub use draw::{Along, Draw, Items, arc, path_through};
pub use face::Face;
pub use page::{Item, Label, Page, Pen, Segment};
pub use paper::{Area, At, Paper};
pub use wrap::{FIRST, LINE, fitted, high, lines, wrapped};
