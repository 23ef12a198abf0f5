//! Straights and arcs as they lie about in a file, joined end to end to centrelines.

mod build;
mod link;
mod piece;

pub(crate) use build::{Built, built, clean};
pub(crate) use link::linked;
pub(crate) use piece::Piece;
