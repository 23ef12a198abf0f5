//! All tests of the crate from outside, as one program: each one more would have to be linked.
#![allow(clippy::unwrap_used, clippy::panic)]

mod formed_report;
#[path = "../../workbench/tests/common/jargon.rs"]
mod jargon;
mod memory;
mod meshes;
mod plain_facts;
mod random_tables;
mod sheet;
mod solids;
mod spoilt;
mod units;
mod unsure;
