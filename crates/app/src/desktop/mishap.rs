//! What a person reads when the window cannot open, or when the program meets a fault of its own.
//!
//! The engine panics where it finds no display or no graphics driver, and only there is it possible to
//! tell the two apart. So a hook keeps what was said, and this file turns it into plain sentences.

use std::panic::PanicHookInfo;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};

static RUNNING: AtomicBool = AtomicBool::new(false);
static SAID: Mutex<Option<String>> = Mutex::new(None);

/// What the process answers after a fault of its own, as Rust programs do.
pub const FAULT_EXIT: u8 = 101;
/// What the process answers where the window could not open.
pub const START_EXIT: u8 = 2;

/// Keeps what a panic says instead of printing it: it is told in plain words when the window has fallen.
pub fn install_hook() {
    std::panic::set_hook(Box::new(hear));
}

/// From now on a panic is a fault of the running program, not a failure to start.
pub fn now_running() {
    RUNNING.store(true, Ordering::Relaxed);
}

/// Whether the first frame has passed.
pub fn is_running() -> bool {
    RUNNING.load(Ordering::Relaxed)
}

/// What the first panic said; the others are its echoes.
pub fn first_words() -> String {
    SAID.lock().unwrap_or_else(PoisonError::into_inner).clone().unwrap_or_default()
}

fn hear(info: &PanicHookInfo) {
    SAID.lock().unwrap_or_else(PoisonError::into_inner).get_or_insert_with(|| words_of(info));
}

fn words_of(info: &PanicHookInfo) -> String {
    let said = info.payload();
    let said = said.downcast_ref::<&str>().map(ToString::to_string).or_else(|| said.downcast_ref::<String>().cloned());
    let said = said.unwrap_or_else(|| "no reason was given".into());
    match info.location() {
        Some(place) => format!("{said} ({}:{})", place.file(), place.line()),
        None => said,
    }
}

/// What is said after a fault of the program's own. The workbench has put the work aside by then: its
/// keeper writes what waits when it is dropped, and what was written before stands in any case.
pub fn fault_text(words: &str) -> String {
    format!(
        "elbowroom: the program has met a fault of its own and had to close. Your work was put aside and is offered \
         to you at the next start.\nFor a report: {words}"
    )
}

/// Why the window could not open, in plain words and with what would help.
pub fn start_text(words: &str) -> String {
    let without = "Without a window, `elbowroom check FILE` and the other subcommands still work (`elbowroom --help`).";
    let lower = words.to_lowercase();
    let why = if lower.contains("gpu")
        || lower.contains("adapter")
        || lower.contains("wgpu")
        || lower.contains("vulkan")
    {
        "no graphics driver that draws in 3D was found. Install the Vulkan driver of your graphics card, or the one \
         that needs no card: `apt install mesa-vulkan-drivers` on Debian and Ubuntu, `dnf install \
         mesa-vulkan-drivers` on Fedora, `pacman -S vulkan-swrast` on Arch."
            .to_string()
    } else if lower.contains("could not be loaded") || lower.contains(".so") {
        format!("a library that windows need is missing: {words}. Install it from your system's packages.")
    } else if lower.contains("event loop")
        || lower.contains("display")
        || lower.contains("x11")
        || lower.contains("wayland")
    {
        "no display was found to open the window on. Start it from a desktop session, or set DISPLAY or \
         WAYLAND_DISPLAY to one that is running."
            .to_string()
    } else {
        format!("something unforeseen stood in the way: {words}.")
    };
    format!("elbowroom: the window cannot open: {why}\n{without}")
}

/// Whether the environment names no display at all, so that there is no use in trying.
pub fn no_display_named() -> bool {
    let named = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    cfg!(all(unix, not(target_os = "macos")))
        && !named("DISPLAY")
        && !named("WAYLAND_DISPLAY")
        && !named("WAYLAND_SOCKET")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_cause_of_a_failed_start_is_told_with_its_own_help() {
        let cases = [
            ("Unable to find a GPU! Make sure you have installed required drivers! (a.rs:1)", "mesa-vulkan-drivers"),
            ("Failed to build event loop: Os(OsError { .. })", "DISPLAY"),
            ("Library libxkbcommon-x11.so could not be loaded.", "libxkbcommon-x11.so"),
            ("a thing nobody thought of", "a thing nobody thought of"),
        ];
        for (words, help) in cases {
            let text = start_text(words);
            assert!(text.contains(help), "{text}");
            assert!(text.contains("elbowroom check FILE"), "{text}");
            assert!(!text.contains("panic"), "{text}");
        }
    }

    #[test]
    fn a_fault_says_what_became_of_the_work_and_what_to_report() {
        let text = fault_text("index out of bounds (a.rs:7)");
        assert!(text.contains("put aside") && text.contains("a.rs:7"), "{text}");
    }
}
