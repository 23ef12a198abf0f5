//! What the tests of the panels share: parts and shops of their own, a window that shows one panel, and
//! pictures of it.
#![allow(dead_code, unused_imports, clippy::unwrap_used, clippy::panic)]

pub mod parts;
pub mod window;

pub use window::{Window, shown};
