//! The bends as a table that can be typed into, in trade order: straight, rotation, angle, CLR; the last
//! row is the straight behind the last bend. Or as points: x, y, z and CLR of both ends and of each bend.
//!
//! Valid text is previewed while it is typed; Enter, Tab, the arrows up and down or leaving the cell make
//! it one step of history, Escape drops it. Text that cannot be read stays, with its error, until it is
//! mended or dropped. Beneath stands the spacing of a U's legs. Rows pasted from a spreadsheet replace rows from the selected one on.

mod buttons;
mod cell;
mod click;
mod field;
mod keys;
mod legs;
mod model;
mod paste;
mod paste_error;
mod paste_fields;
mod paste_points;
mod points;
mod row;
mod state;
mod stays;
mod table;

pub use cell::{Cell, CellError, Column};
pub use legs::Legs;
pub use model::{Model, Row};
pub use paste_error::PasteError;
pub use points::{Moves, PathPoint, Spot};
pub use state::State;
pub use stays::Stays;
pub use table::ui;
