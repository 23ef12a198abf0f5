//! The main job against values published outside this project, through the public API.
//!
//! Each test names its source and the row of the project's list of published facts (G01 and so on). What
//! comes from memory or is plain arithmetic says so. Figures are copied, words are not.
// Rounded figures stay as they were published, even where they come near a constant.
#![allow(clippy::unwrap_used, clippy::panic, clippy::approx_constant)]

mod arcs;
mod bend_lengths;
mod forming;
mod offsets;
mod outside_dimensions;
mod rotations;
mod support;
