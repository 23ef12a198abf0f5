//! Formats beside the program's own: opened as parts, and exported.

use std::path::Path;
use std::sync::Arc;

use elbowroom_bending::{Part, Shop};

use crate::Workbench;
use crate::shelf::file::{FileProblem, save_atomically, sweep_beside};
use elbowroom_bending::text::stopped;

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

impl Workbench {
    /// Reads these formats too.
    #[must_use]
    pub fn with_importers(mut self, importers: Vec<Importer>) -> Self {
        self.importers = importers;
        self
    }

    /// Writes these formats too.
    #[must_use]
    pub fn with_exporters(mut self, exporters: Vec<Exporter>) -> Self {
        self.exporters = exporters;
        self
    }

    /// The formats that can be opened beside the program's own.
    pub fn importers(&self) -> &[Importer] {
        &self.importers
    }

    /// The formats that a part can be exported in.
    pub fn exporters(&self) -> &[Exporter] {
        &self.exporters
    }

    /// Writes the part in the format that the file's name ends in, the first one where it ends in none. The part's
    /// own file, and whether the work is safe, stay as they are.
    pub(crate) fn export(&mut self, path: &Path) {
        let named = extension_of(path);
        let exporter = match &named {
            Some(named) => self.exporters.iter().find(|exporter| exporter.extension == named),
            None => self.exporters.first(),
        };
        let Some(exporter) = exporter.cloned() else {
            let known: Vec<_> =
                self.exporters.iter().map(|exporter| format!(".{} ({})", exporter.extension, exporter.name)).collect();
            return self.refuse(format!("Not exported. The name must end in {}.", known.join(" or ")));
        };
        let mut full = path.to_owned();
        if named.is_none() {
            full.set_extension(exporter.extension);
            if full.exists() {
                let name = full.display();
                return self.refuse(format!(
                    "Not exported. {name} is there already; choose it by its full name to replace it."
                ));
            }
        }
        let written = (exporter.write)(self.committed_part(), &full.display().to_string());
        match written.and_then(|bytes| save_atomically(&full, bytes)) {
            Ok(()) => {
                sweep_beside(&full);
                self.done(format!("Exported as {} to {}.", exporter.name, full.display()));
            }
            Err(problem) => self.refuse(format!("Not exported. {}", stopped(&problem.to_string()))),
        }
    }
}
