//! Why a file could not be read or written: which file, which line, what is wrong, what would be right.

use std::fmt;

use elbowroom_bending::text::harmless;

/// What is wrong with a file, in words for the person who wrote or chose it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileProblem {
    /// The file, as the person knows it.
    pub file: String,
    /// The line, counted from 1, where one is known.
    pub line: Option<usize>,
    /// What is wrong.
    pub what: String,
    /// What would be right, or what to do; empty where nothing helps.
    pub right: String,
}

impl FileProblem {
    /// A problem with a file as a whole.
    pub fn whole(file: impl Into<String>, what: impl Into<String>, right: impl Into<String>) -> Self {
        Self::of(file.into(), None, what.into(), right.into())
    }

    /// A problem on a line, counted from 1.
    pub fn on_line(file: impl Into<String>, line: usize, what: impl Into<String>, right: impl Into<String>) -> Self {
        Self::of(file.into(), Some(line), what.into(), right.into())
    }

    /// Names of files and what stands in them are told as text, whatever they hold.
    fn of(file: String, line: Option<usize>, what: String, right: String) -> Self {
        let [file, what, right] = [file, what, right].map(|text| harmless(&text).into_owned());
        Self { file, line, what, right }
    }
}

impl fmt::Display for FileProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if let Some(line) = self.line {
            write!(f, ", line {line}")?;
        }
        write!(f, ": {}", self.what)?;
        if !self.right.is_empty() {
            write!(f, "; {}", self.right)?;
        }
        Ok(())
    }
}

impl std::error::Error for FileProblem {}
