//! All tests of the crate from outside, as one program: each one more would have to be linked.
#![allow(clippy::unwrap_used, clippy::panic)]

mod bite;
mod checks;
mod cures;
mod edits;
mod first_off_doubt;
mod first_off_loop;
mod forming_checks;
mod keeping;
mod motion;
mod near_half_turn;
mod nodes;
mod order;
mod plain_facts;
mod program_replay;
mod properties;
mod published;
mod shop;
mod surroundings;
mod trials;
mod units;
