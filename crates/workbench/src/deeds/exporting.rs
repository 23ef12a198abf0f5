//! Formats beside the program's own, and writing in one of them.

use std::path::Path;

use elbowroom_bending::text::stopped;

use crate::Workbench;
use crate::shelf::file::{save_atomically, sweep_beside};
use crate::shelf::other_formats::{Exporter, Importer, extension_of};

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
        let written = (exporter.write)(self.committed_part(), self.shop(), &full.display().to_string());
        match written.and_then(|bytes| save_atomically(&full, bytes)) {
            Ok(()) => {
                sweep_beside(&full);
                self.done(format!("Exported as {} to {}.", exporter.name, full.display()));
            }
            Err(problem) => self.refuse(format!("Not exported. {}", stopped(&problem.to_string()))),
        }
    }
}
