//! Where a report is written to, bit by bit: of a long tube it is far longer than what is known of the tube.

use std::io;

use elbowroom_bending::setup::UNSURE_MARK;

/// What a text report is written to.
pub(super) struct Sink<'a> {
    out: &'a mut dyn io::Write,
    /// Whether a figure was written that looks unsure, so that the legend has to follow.
    pub marked: bool,
}

impl<'a> Sink<'a> {
    /// Writes to `out`.
    pub fn new(out: &'a mut dyn io::Write) -> Self {
        Self { out, marked: false }
    }

    /// Writes a text, which must be of whole letters.
    ///
    /// # Errors
    /// Those of what is written to.
    pub fn text(&mut self, text: &str) -> io::Result<()> {
        self.marked |= text.contains(UNSURE_MARK);
        self.out.write_all(text.as_bytes())
    }
}

/// The text that is written by `write`.
pub(super) fn text_of(write: impl FnOnce(&mut Vec<u8>) -> io::Result<()>) -> String {
    let mut bytes = Vec::new();
    // Writing to memory cannot fail, and what is written are texts.
    let _ = write(&mut bytes);
    String::from_utf8(bytes).unwrap_or_default()
}
