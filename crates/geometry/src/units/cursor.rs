//! A place in the text that is being read.

use super::{EntryError, harmless};

/// The text as characters, and how far it has been read.
pub(super) struct Cursor<'a> {
    text: &'a str,
    chars: Vec<char>,
    /// Index of the next character.
    pub at: usize,
}

impl<'a> Cursor<'a> {
    /// At the start of a text.
    pub fn new(text: &'a str) -> Self {
        Self { text, chars: text.chars().collect(), at: 0 }
    }

    /// The next character.
    pub fn peek(&self) -> Option<char> {
        self.peek_ahead(0)
    }

    /// The character so many places ahead.
    pub fn peek_ahead(&self, places: usize) -> Option<char> {
        self.chars.get(self.at + places).copied()
    }

    /// Passes over white space; says whether there was any.
    pub fn skip_space(&mut self) -> bool {
        let from = self.at;
        while self.peek().is_some_and(char::is_whitespace) {
            self.at += 1;
        }
        self.at > from
    }

    /// Takes the next character if it is one of these.
    pub fn take(&mut self, wanted: &[char]) -> Option<char> {
        let next = self.peek().filter(|c| wanted.contains(c))?;
        self.at += 1;
        Some(next)
    }

    /// Takes characters as long as they pass.
    pub fn take_while(&mut self, passes: impl Fn(char) -> bool) -> String {
        let from = self.at;
        while self.peek().is_some_and(&passes) {
            self.at += 1;
        }
        self.chars[from..self.at].iter().collect()
    }

    /// An error at a character. What it quotes of the text does nothing but be read.
    pub fn error(&self, at: usize, what: impl Into<String>, would_be_right: impl Into<String>) -> EntryError {
        let what = harmless(&what.into()).into_owned();
        EntryError { text: self.text.to_owned(), at, what, would_be_right: would_be_right.into() }
    }
}
