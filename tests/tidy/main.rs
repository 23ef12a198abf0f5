//! The rules of the house as tests: what a crate may use, how files look, what every check brings along.
//! DEVELOPERS.md says why each rule is there.
#![allow(clippy::unwrap_used, clippy::panic)]

mod checks;
mod colours;
mod crates;
mod files;
mod rooms;
mod storeys;
mod tree;
mod uses;
mod words;
