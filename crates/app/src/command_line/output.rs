//! Writing to standard output and standard error without a panic, whoever reads them.

use std::io::{BufWriter, ErrorKind, Write};

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

/// Writes to standard output bit by bit, in the same way.
pub fn print_bit_by_bit(write: impl FnOnce(&mut dyn Write) -> std::io::Result<()>) -> Result<(), Failure> {
    let mut out = Harmless(BufWriter::new(std::io::stdout().lock()));
    match write(&mut out).and_then(|()| out.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Failure::Output(error)),
        _ => Ok(()),
    }
}

/// Lets nothing but text and line breaks through. What is written at once must be whole letters.
struct Harmless<W>(W);

impl<W: Write> Write for Harmless<W> {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        let text = std::str::from_utf8(bytes).map_err(std::io::Error::other)?;
        self.0.write_all(harmless_lines(text).as_bytes())?;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> std::io::Result<()> {
        self.0.flush()
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
