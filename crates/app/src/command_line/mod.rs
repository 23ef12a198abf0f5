//! The windowless command: check, program, compare, first-off, sheet, explain, convert.
//!
//! Exit codes are part of the contract with scripts (README.md): 0 no finding at stop, 1 at least one,
//! 2 it could not run, with the reason on standard error.

mod arguments;
mod around;
mod check;
mod compare;
mod convert;
mod explain;
mod failure;
mod first_off;
mod outcome;
mod output;
mod program;
mod sheet;
mod shop;
mod sizes;
mod subject;

use std::process::ExitCode;

use clap::Parser;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use elbowroom_bending::text::{harmless, shown_path};

use arguments::{Arguments, Task};
use failure::Failure;
use outcome::Outcome;
pub use output::complain;
use output::complain_at_length;

/// Reads the command line, does what it asks for, and opens the window by `open_window` where it names no
/// task.
pub fn run(open_window: impl FnOnce(Option<std::path::PathBuf>) -> ExitCode) -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(error) => return refused(error),
    };
    let done = match arguments.task {
        None => return open_window(arguments.file),
        Some(Task::Check(check)) => check::run(&check),
        Some(Task::Program(program)) => program::run(&program),
        Some(Task::Compare(compare)) => compare::run(&compare),
        Some(Task::FirstOff(first_off)) => first_off::run(&first_off),
        Some(Task::Sheet(sheet)) => sheet::run(&sheet),
        Some(Task::Explain(explain)) => explain::run(&explain),
        Some(Task::Convert(convert)) => convert::run(&convert),
    };
    match done {
        Ok(Outcome::Passes) => ExitCode::SUCCESS,
        Ok(Outcome::Stopped) => ExitCode::from(1),
        Err(failure) => {
            complain(&failure.to_string());
            ExitCode::from(2)
        }
    }
}

/// Tells what is wrong with the command line, or shows the help that it asks for.
fn refused(error: clap::Error) -> ExitCode {
    // With more than one word, one that is no task was taken for a file to open.
    let taken_for_file = error.kind() == ErrorKind::ArgumentConflict
        && matches!(error.get(ContextKind::PriorArg), Some(ContextValue::String(prior)) if prior == "[FILE]");
    if taken_for_file && let Some(word) = std::env::args_os().nth(1) {
        complain(&format!(
            "\"{}\" is no task; the tasks are check, program, compare, first-off, sheet, explain and convert, and a file to open in the window stands alone",
            shown_path(word.as_ref())
        ));
        return ExitCode::from(2);
    }
    // What is wrong quotes what was typed; the help is all the program's own words, and may be in colour.
    if error.use_stderr() {
        let typed = std::env::args_os().map(|word| harmless(&word.to_string_lossy()).into_owned());
        let harmless_one = Arguments::try_parse_from(typed).err().unwrap_or(error);
        complain_at_length(&harmless_one.to_string());
        return ExitCode::from(2);
    }
    // Where nobody reads there is nobody left to tell.
    let _ = error.print();
    ExitCode::SUCCESS
}
