//! From part and shop to straights, bends, clamps, blank and program.

pub(crate) mod ahead;
mod arc_offset;
pub mod around;
mod bend;
pub(crate) mod clamp;
mod dial;
pub(crate) mod form;
mod formed;
pub mod forward;
mod laid_out;
mod lay_out;
mod let_go;
pub(crate) mod order;
pub mod program;
pub(crate) mod released;
pub(crate) mod tooling;
pub(crate) mod trims;

pub use bend::SolvedBend;
pub use clamp::ClampOnTube;
pub use formed::{Cut, Formed, Mass, Released};
pub use laid_out::LaidOut;
pub(crate) use lay_out::lay_out;
