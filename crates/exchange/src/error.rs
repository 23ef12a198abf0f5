//! What is wrong with a text that is being read, before the file's name is put to it.

use elbowroom_workbench::file::FileProblem;

/// What is wrong with a text, and what would be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct TextError {
    /// The line, counted from 1, where the trouble has one.
    pub line: Option<usize>,
    /// What is wrong.
    pub what: String,
    /// What would be right; empty where nobody can tell.
    pub right: String,
}

impl TextError {
    /// An error at a line.
    pub fn at(line: usize, what: impl Into<String>, right: impl Into<String>) -> Self {
        Self { line: Some(line), what: what.into(), right: right.into() }
    }

    /// An error of the text as a whole.
    pub fn whole(what: impl Into<String>, right: impl Into<String>) -> Self {
        Self { line: None, what: what.into(), right: right.into() }
    }

    /// The same error, naming the file.
    pub fn in_file(self, file: &str) -> FileProblem {
        match self.line {
            Some(line) => FileProblem::on_line(file, line, self.what, self.right),
            None => FileProblem::whole(file, self.what, self.right),
        }
    }
}
