//! The window: scene by bevy, panels by egui, one workbench between them.
//!
//! A frame goes: mouse and keys over the scene become wishes, wishes are performed, the scene follows,
//! and the panels are drawn from the same workbench; so a drag's whole chain is on the screen in the frame
//! that heard of it. What a panel asks for is performed while it is drawn, and the panels are laid out
//! again at once; the scene follows in the frame that comes straight after.

mod account;
mod app;
mod compass;
mod dialogs;
mod import;
mod input;
mod labels;
mod mishap;
mod opening;
mod panels;
mod prompt;
mod prompt_path;
mod purpose;
mod redraw;
mod requests;
mod timing;
mod title;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::process::ExitCode;
use std::time::Instant;

use bevy::prelude::AppExit;

/// Opens the window, on `file` where one is given, and comes back when it is closed.
///
/// Answers 0 after a clean end, 2 where the window cannot open (with the reason and what would help on
/// standard error), and 101 after a fault of the program's own, with the work put aside.
pub fn run(file: Option<PathBuf>) -> ExitCode {
    let started = Instant::now();
    if mishap::no_display_named() {
        eprintln!("{}", mishap::start_text("no display is named"));
        return ExitCode::from(mishap::START_EXIT);
    }
    mishap::install_hook();
    match catch_unwind(AssertUnwindSafe(|| app::build(file, started).run())) {
        Ok(AppExit::Success) => ExitCode::SUCCESS,
        Ok(AppExit::Error(code)) => ExitCode::from(code.get()),
        Err(_) if mishap::is_running() => {
            eprintln!("{}", mishap::fault_text(&mishap::first_words()));
            ExitCode::from(mishap::FAULT_EXIT)
        }
        Err(_) => {
            eprintln!("{}", mishap::start_text(&mishap::first_words()));
            ExitCode::from(mishap::START_EXIT)
        }
    }
}
