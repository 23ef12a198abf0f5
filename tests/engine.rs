//! What lies beside the engine and is tested there: the scene, and the window's own parts of the program.
//!
//! They are built as `cargo run --release` builds them. Built for development too, as `cargo test` would by itself, the
//! engine would take its time a second time.

#![allow(clippy::unwrap_used)]

use std::process::Command;

#[test]
fn the_tests_beside_the_engine_pass() {
    let mut cargo = Command::new(env!("CARGO"));
    cargo.args(["test", "--release", "--package", "elbowroom", "--package", "elbowroom-viewport", "--lib", "--bins"]);
    let status = cargo.current_dir(elbowroom_tests::root()).status().unwrap();
    assert!(status.success(), "the tests beside the engine failed: see above");
}
