//! The `elbowroom` program: a window to lay out bent tube in, and a command line that works without one.

mod command_line;
#[cfg(feature = "desktop")]
mod desktop;

use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    command_line::run(open_window)
}

#[cfg(feature = "desktop")]
fn open_window(file: Option<PathBuf>) -> ExitCode {
    desktop::run(file)
}

#[cfg(not(feature = "desktop"))]
fn open_window(_: Option<PathBuf>) -> ExitCode {
    command_line::complain(
        "this build has no window; build it with `cargo build --release`, or see `elbowroom --help` for what works \
         without one",
    );
    ExitCode::from(2)
}
