//! What is wrong with a file, where, and what would be right.

use std::path::{Path, PathBuf};

use thiserror::Error;

/// What is wrong with a text that was to be read, before anybody knows which file it came from.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{}{what}{}", line.map(|line| format!("line {line}: ")).unwrap_or_default(), and_right(right))]
pub struct TextError {
    /// The line, counted from 1, where the trouble has one.
    pub line: Option<u64>,
    /// What is wrong.
    pub what: String,
    /// What would be right; empty where nobody can tell.
    pub right: String,
}

impl TextError {
    /// An error at a line.
    pub fn at(line: u64, what: impl Into<String>, right: impl Into<String>) -> Self {
        Self { line: Some(line), what: what.into(), right: right.into() }
    }

    /// An error of the text as a whole.
    pub fn whole(what: impl Into<String>, right: impl Into<String>) -> Self {
        Self { line: None, what: what.into(), right: right.into() }
    }

    /// The same error, naming the file.
    pub fn in_file(self, file: &Path) -> FileError {
        FileError { file: file.to_owned(), line: self.line, what: self.what, right: self.right }
    }
}

/// A file that could not be read or written: which one, where, what is wrong, what would be right.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{}{}: {what}{}", file.display(), at_line(*line), and_right(right))]
pub struct FileError {
    /// The file.
    pub file: PathBuf,
    /// The line, counted from 1, where the trouble has one.
    pub line: Option<u64>,
    /// What is wrong.
    pub what: String,
    /// What would be right; empty where nobody can tell.
    pub right: String,
}

fn at_line(line: Option<u64>) -> String {
    line.map(|line| format!(", line {line}")).unwrap_or_default()
}

fn and_right(right: &str) -> String {
    if right.is_empty() { String::new() } else { format!("; {right}") }
}
