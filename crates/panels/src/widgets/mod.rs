//! Small things that several panels draw.

mod heading;
mod link;
mod mark;

pub use heading::heading;
pub use link::link;
pub use mark::{MARK_ASPECT, mark, paint_mark, stripes};
