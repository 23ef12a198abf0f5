//! All tests of the crate from outside, as one program: each one more would have to be linked.
#![allow(clippy::unwrap_used, clippy::panic)]

mod bounds;
mod clearance;
mod common;
mod conversion;
mod door;
mod handles;
mod holding;
mod obstacles;
mod published;
mod reversal;
mod skin;
mod stations;
mod units;
