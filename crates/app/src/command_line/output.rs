//! Writing to standard output and standard error without a panic, whoever reads them.

use std::io::{ErrorKind, Write};

use elbowroom_bending::text::harmless_lines;

use super::Failure;

/// Writes text to standard output. A reader that has gone away (`| head`) has had enough: that is no
/// failure. Nothing but text and line breaks goes out, whatever names hold.
pub fn print(text: &str) -> Result<(), Failure> {
    let mut out = std::io::stdout().lock();
    match out.write_all(harmless_lines(text).as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Failure::Output(error)),
        _ => Ok(()),
    }
}

/// Writes what the reader of the command line has to say to standard error, as it stands.
pub fn complain_at_length(text: &str) {
    // Where standard error is closed there is nobody left to tell.
    let _ = write!(std::io::stderr().lock(), "{}", harmless_lines(text));
}

/// Writes one message to standard error, under the program's name.
pub fn complain(message: &str) {
    // Where standard error is closed there is nobody left to tell.
    let _ = writeln!(std::io::stderr().lock(), "elbowroom: {}", harmless_lines(message));
}
