//! What is wrong with a typed length or angle, and where.

use thiserror::Error;

/// A typed length or angle that could not be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{what} (character {}): {would_be_right}", at + 1)]
pub struct EntryError {
    /// The text as typed.
    pub text: String,
    /// The character at which it goes wrong, counted from 0; the number of characters where something
    /// is missing at the end.
    pub at: usize,
    /// What is wrong, such as `"furlong" is no unit of length`.
    pub what: String,
    /// What would be right.
    pub would_be_right: String,
}

impl EntryError {
    /// Two lines: the text, and a caret under the character at which it goes wrong.
    pub fn caret(&self) -> String {
        // One space a character; line breaks and tabs would move the caret away from its place.
        let line: String = self.text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
        format!("{line}\n{}^", " ".repeat(self.at))
    }
}
