//! A start that cannot succeed says why, in plain words, and leaves with 2.

use std::process::Output;

use crate::{display, program};

fn check(done: &Output, help: &str) {
    let said = String::from_utf8_lossy(&done.stderr);
    assert_eq!(done.status.code(), Some(2), "{said}");
    assert!(said.contains(help) && said.contains("elbowroom check FILE"), "{said}");
    assert!(!said.contains("panicked") && !said.contains("RUST_BACKTRACE"), "{said}");
}

#[test]
fn without_a_display_it_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let done = program::command(folder.path()).output().expect("it runs");
    check(&done, "no display was found");
    let done = program::command(folder.path()).env("DISPLAY", ":65000").output().expect("it runs");
    check(&done, "no display was found");
}

#[test]
fn without_a_graphics_driver_it_says_what_to_install() {
    let Some(display) = display::open(800, 600) else { return };
    let folder = tempfile::tempdir().expect("a folder");
    let none = folder.path().join("none.json");
    let done = program::command(folder.path())
        .env("DISPLAY", &display.name)
        .env("VK_DRIVER_FILES", &none)
        .env("VK_ICD_FILENAMES", &none)
        .output()
        .expect("it runs");
    check(&done, "mesa-vulkan-drivers");
}
