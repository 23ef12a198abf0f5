//! The whole judgement: every check on a part that is laid out, the verdict, and what is made of both.

pub mod at_machine;
pub mod compare;
pub mod plan;
pub mod program_sheet;
pub mod program_table;
pub mod requirements;
pub mod setup;
mod solved;
pub mod surroundings;
mod trials;
pub(crate) mod verdict;

pub use solved::{Solved, solve};
pub use trials::Trials;
