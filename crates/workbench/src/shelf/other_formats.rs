//! Formats beside the program's own: opened as parts, and exported.

use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::{Part, Shop};

use crate::shelf::file::FileProblem;

/// A format that is read beside the program's own.
#[derive(Clone)]
pub struct Importer {
    /// Its file name extension, without the dot, in lower case.
    pub extension: &'static str,
    /// Makes a part of a file's bytes on a shop; an error says on which line what is wrong, without the file's
    /// name. The part is named after its file where its name is left empty.
    pub read: Arc<ReadPart>,
}

/// A format that a part is written in, to be used elsewhere.
#[derive(Clone)]
pub struct Exporter {
    /// What it is called, such as `points table`.
    pub name: &'static str,
    /// Its file name extension, without the dot, in lower case.
    pub extension: &'static str,
    /// Makes a file's bytes of a part. The name of the file stands in the errors.
    pub write: Arc<WritePart>,
}

/// What reads a part from bytes, on a shop.
pub type ReadPart = dyn Fn(&[u8], &Shop) -> Result<Part, String> + Send + Sync;

/// What writes a part for a file of that name.
pub type WritePart = dyn Fn(&Part, &str) -> Result<Vec<u8>, FileProblem> + Send + Sync;

/// The extension of a file's name, in lower case.
pub(crate) fn extension_of(path: &Path) -> Option<String> {
    path.extension().map(|extension| extension.to_string_lossy().to_lowercase())
}
