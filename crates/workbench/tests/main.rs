//! All tests of the crate from outside, as one program: each one more would have to be linked.
#![allow(clippy::unwrap_used, clippy::panic)]

mod at_machine;
mod catalogue;
mod common;
mod documents;
mod editing;
mod files;
mod first_off;
mod hostile;
mod identity;
mod measuring;
mod moving;
mod museum;
mod obstacles;
mod proposal;
mod recovery;
mod saving;
mod shop_edits;
mod surroundings;
mod systems;
mod troubles;
mod tubes;
