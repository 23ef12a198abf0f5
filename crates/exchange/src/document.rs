//! What a file holds once it is read.

use elbowroom_bending::text::harmless;
use elbowroom_bending::{Path, System};

/// What a file holds: a system of tubes, or only centrelines.
#[derive(Clone, Debug, PartialEq)]
pub enum Document {
    /// A system of tubes with their tooling; of one where the file holds a part.
    System(Box<System>),
    /// Centrelines without a tube. There is always one at least, and of several no two have the same name.
    Lines(Vec<Line>),
}

/// A centreline without a tube.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is called in the file; empty where the file does not say.
    pub name: String,
    /// The centreline.
    pub path: Path,
}

/// A document as it was read, with what is to be said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Read {
    /// What was read.
    pub document: Document,
    /// What the file holds that was passed over, and what was taken for granted, in whole sentences.
    pub notes: Vec<String>,
}

impl From<Document> for Read {
    fn from(document: Document) -> Self {
        Self { document, notes: Vec::new() }
    }
}

/// The most notes that a person is told of one file.
const MOST_NOTES: usize = 20;

/// As many notes as a person reads, and how many more there would be. What they quote of a file can only be shown.
pub(crate) fn few(mut notes: Vec<String>) -> Vec<String> {
    let more = notes.len().saturating_sub(MOST_NOTES);
    if more > 0 {
        notes.truncate(MOST_NOTES);
        notes.push(format!("There are {more} further remarks of this kind."));
    }
    for note in &mut notes {
        *note = harmless(note).into_owned();
    }
    notes
}

/// Gives every name that stands twice a number, and what has no name one.
pub(crate) fn told_apart(names: &mut [&mut String], unnamed: &str) {
    let mut taken: std::collections::HashSet<String> = std::collections::HashSet::new();
    for name in names {
        if name.trim().is_empty() {
            **name = unnamed.to_owned();
        }
        let mut number = 2;
        let mut free = name.clone();
        while !taken.insert(free.clone()) {
            free = format!("{name} {number}");
            number += 1;
        }
        **name = free;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_note_quotes_of_a_file_can_only_be_shown() {
        let notes = few(vec!["1 of the kind TE\0\u{1b}[2JXT were passed over.".to_owned()]);
        assert!(!notes[0].contains(['\0', '\u{1b}']), "{notes:?}");
        assert_eq!(few(vec![String::new(); 2 * MOST_NOTES]).len(), MOST_NOTES + 1);
    }
}
