//! Why pasted rows were not taken.

use std::fmt;

use super::Column;

/// Why pasted rows were not taken. Nothing was changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PasteError {
    /// The line of the pasted text, counted from 1.
    pub line: usize,
    /// The column that could not be read.
    pub column: Option<Column>,
    /// What is wrong, and what would be right.
    pub what: String,
}

impl fmt::Display for PasteError {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "Not pasted. Row {}", self.line)?;
        if let Some(column) = self.column {
            write!(formatter, ", {}", column.name())?;
        }
        write!(formatter, ": {}", self.what)
    }
}
