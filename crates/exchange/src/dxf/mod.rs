//! DXF drawings: tubes out as three views, an isometric view and the centreline in space (R12); centrelines in, from text and
//! binary files of R12 and later.

mod plane;
mod read;
mod write;

pub use read::read;
pub use write::write;

/// The layer that the centreline in space is written on. Where a drawing has it, nothing else of the drawing is read.
pub const SPACE_LAYER: &str = "TUBE_IN_SPACE";
