//! What a person reads when the window cannot open, or when the program meets a fault of its own.
//!
//! The engine panics where it finds no display or no graphics driver, and only there is it possible to
//! tell the two apart. So a hook keeps what was said, and this file turns it into plain sentences.

use std::panic::PanicHookInfo;
use std::path::PathBuf;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};

/// Saves the work that is open and says where it went; `None` where there was nothing to save.
pub type Keeper = Box<dyn Fn() -> Option<PathBuf> + Send>;

static RUNNING: AtomicBool = AtomicBool::new(false);
static TOLD: AtomicBool = AtomicBool::new(false);
static SAID: Mutex<Option<String>> = Mutex::new(None);
static KEEPER: Mutex<Option<Keeper>> = Mutex::new(None);

/// What the process answers after a fault of its own, as Rust programs do.
pub const FAULT_EXIT: u8 = 101;
/// What the process answers where the window could not open.
pub const START_EXIT: u8 = 2;

/// Takes over what is printed at a panic.
pub fn install_hook() {
    std::panic::set_hook(Box::new(hook));
}

/// From now on a panic is a fault of the running program, not a failure to start.
pub fn now_running() {
    RUNNING.store(true, Ordering::Relaxed);
}

/// Whether the first frame has passed.
pub fn is_running() -> bool {
    RUNNING.load(Ordering::Relaxed)
}

/// Has `keeper` called if the program falls over.
pub fn keep_with(keeper: Keeper) {
    *KEEPER.lock().unwrap_or_else(PoisonError::into_inner) = Some(keeper);
}

/// What the last panic said.
pub fn last_words() -> String {
    SAID.lock().unwrap_or_else(PoisonError::into_inner).clone().unwrap_or_default()
}

fn hook(info: &PanicHookInfo) {
    let words = words_of(info);
    *SAID.lock().unwrap_or_else(PoisonError::into_inner) = Some(words.clone());
    // Only the first panic is told: the others are its echoes in other threads.
    if !is_running() || TOLD.swap(true, Ordering::Relaxed) {
        return;
    }
    // A keeper that is in use right now is the one that fell over; the work of its last run stands.
    let kept = KEEPER.try_lock().ok().and_then(|keeper| keeper.as_ref().and_then(|keep| keep()));
    eprintln!("{}", fault_text(&words, kept.is_some()));
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

fn fault_text(words: &str, kept: bool) -> String {
    let work = if kept {
        "Your work was put aside and will be offered to you at the next start."
    } else {
        "Work up to two seconds before is offered to you at the next start."
    };
    format!("elbowroom: the program has met a fault of its own and must close. {work}\nFor a report: {words}")
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
    fn a_fault_says_whether_the_work_was_put_aside() {
        assert!(fault_text("x", true).contains("was put aside"));
        assert!(fault_text("x", false).contains("two seconds"));
    }
}
