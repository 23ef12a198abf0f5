//! Formats beside the program's own: opened as systems of tubes, and exported.

use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::{Part, Shop, System};

use crate::shelf::file::FileProblem;

/// A format that is read beside the program's own.
#[derive(Clone)]
pub struct Importer {
    /// Its file name extension, without the dot, in lower case.
    pub extension: &'static str,
    /// Makes tubes of a file's bytes on a shop; an error says on which line what is wrong, without the file's
    /// name. A single tube is named after its file where its name is left empty.
    pub read: Arc<ReadSystem>,
}

/// What was read from another format.
#[derive(Clone, Debug, PartialEq)]
pub struct Imported {
    /// The tubes.
    pub system: System,
    /// What the file holds that was passed over, and what was taken for granted, in whole sentences.
    pub notes: Vec<String>,
}

/// A format that a part is written in, to be used elsewhere.
#[derive(Clone)]
pub struct Exporter {
    /// What it is called, such as `points table`.
    pub name: &'static str,
    /// Its file name extension, without the dot, in lower case.
    pub extension: &'static str,
    /// Makes a file's bytes of a part, judged by the shop where the format tells that. The name of the file stands in the
    /// errors.
    pub write: Arc<WritePart>,
}

/// What reads tubes from bytes, on a shop.
pub type ReadSystem = dyn Fn(&[u8], &Shop) -> Result<Imported, String> + Send + Sync;

/// What writes a part on a shop for a file of that name.
pub type WritePart = dyn Fn(&Part, &Shop, &str) -> Result<Vec<u8>, FileProblem> + Send + Sync;

/// The extension of a file's name, in lower case.
pub(crate) fn extension_of(path: &Path) -> Option<String> {
    path.extension().map(|extension| extension.to_string_lossy().to_lowercase())
}
