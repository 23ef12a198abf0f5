//! The real program, run as a script runs it: exit codes, reports, conversions, hostile input.
#![allow(clippy::unwrap_used, clippy::panic)]

mod around;
mod check;
mod compare;
mod convert;
mod disk;
mod every_pair;
mod extremes;
mod first_off;
mod help;
mod hostile;
mod json;
mod large;
mod memory;
mod names;
mod program;
mod readme;
mod recomputed;
mod replayed;
mod sheet;
mod support;
mod systems;
