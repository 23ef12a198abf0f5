//! The formats that can be read and written, one line each.

use std::path::Path;

use elbowroom_workbench::file::{
    EXTENSION, FileProblem, read_bytes, read_system, save_atomically, sweep_beside, text_of, write_system,
};

use crate::error::TextError;
use crate::{Document, points_table};

/// A file format.
pub struct Format {
    /// What it is called, such as `points table`.
    pub name: &'static str,
    /// Its file name extension, without the dot, in lower case.
    pub extension: &'static str,
    /// Reads a file's bytes. The name of the file stands in the errors.
    pub read: fn(&[u8], &str) -> Result<Document, FileProblem>,
    /// Turns a document into a file's bytes. The name of the file stands in the errors.
    pub write: fn(&Document, &str) -> Result<Vec<u8>, FileProblem>,
}

/// Every format there is: what the command line, the dialogs of the window and its export know.
pub static FORMATS: &[Format] = &[
    Format { name: "part or system", extension: EXTENSION, read: read_native, write: write_native },
    Format { name: "points table", extension: "csv", read: read_points, write: write_points },
];

fn read_native(bytes: &[u8], file: &str) -> Result<Document, FileProblem> {
    read_system(text_of(bytes, file)?, file).map(|system| Document::System(Box::new(system)))
}

fn write_native(document: &Document, file: &str) -> Result<Vec<u8>, FileProblem> {
    match document {
        Document::System(system) => Ok(write_system(system).into_bytes()),
        Document::Points(_) => {
            Err(TextError::whole("a part needs a tube, and there are only points", "say which tube it is")
                .in_file(file))
        }
    }
}

fn read_points(bytes: &[u8], file: &str) -> Result<Document, FileProblem> {
    points_table::read(text_of(bytes, file)?, file).map(Document::Points)
}

fn write_points(document: &Document, file: &str) -> Result<Vec<u8>, FileProblem> {
    let path = match document {
        Document::Points(path) => path.clone(),
        Document::System(system) => match system.tubes() {
            [tube] => points_table::of_part(&tube.part)
                .map_err(|cannot| TextError::whole(cannot.to_string(), cannot.right()).in_file(file))?,
            tubes => {
                let what = format!("a points table holds one tube, and there are {}", tubes.len());
                return Err(TextError::whole(what, format!("name one of {}", system.names_told())).in_file(file));
            }
        },
    };
    Ok(points_table::write(&path).into_bytes())
}

/// The format of a file by its extension, in either case.
///
/// # Errors
/// Names the extensions that are known.
pub fn format_of(file: &Path) -> Result<&'static Format, FileProblem> {
    let extension = file.extension().map(|extension| extension.to_string_lossy().to_lowercase());
    let found = FORMATS.iter().find(|format| extension.as_deref() == Some(format.extension));
    found.ok_or_else(|| {
        let what = match extension {
            Some(extension) => format!("files that end in .{extension} are unknown here"),
            None => "the file name has no extension, so its format is unknown".into(),
        };
        let known: Vec<_> = FORMATS.iter().map(|format| format!(".{} ({})", format.extension, format.name)).collect();
        FileProblem::whole(file.display().to_string(), what, format!("known are {}", known.join(" and ")))
    })
}

/// Reads a file in the format its extension tells.
///
/// # Errors
/// Says what is wrong with the file, at which line, and what would be right.
pub fn read_document(file: &Path) -> Result<Document, FileProblem> {
    let format = format_of(file)?;
    (format.read)(&read_bytes(file)?, &file.display().to_string())
}

/// Writes a document in the format the file's extension tells: complete or not at all.
///
/// # Errors
/// Says why the document has no such form, or why the file could not be written.
pub fn write_document(file: &Path, document: &Document) -> Result<(), FileProblem> {
    let format = format_of(file)?;
    save_atomically(file, (format.write)(document, &file.display().to_string())?)?;
    sweep_beside(file);
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    #[test]
    fn extensions_tell_the_format_in_either_case() {
        assert_eq!(format_of(Path::new("a/b.CSV")).unwrap().name, "points table");
        let said = format_of(Path::new("a/b.xlsx")).err().unwrap().to_string();
        assert!(said.starts_with("a/b.xlsx: files that end in .xlsx are unknown here; known are "), "{said}");
        assert!(said.contains(".csv (points table)"), "{said}");
        assert!(format_of(Path::new("b")).err().unwrap().to_string().contains("no extension"));
    }

    #[test]
    fn a_file_that_is_not_there_is_named() {
        let said = read_document(Path::new("/nowhere/tube.csv")).unwrap_err().to_string();
        assert!(said.starts_with("/nowhere/tube.csv: it cannot be read: "), "{said}");
    }

    #[test]
    fn what_is_written_is_read_back() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("tube.csv");
        let document = read_points(b"x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n9,0,0,1\n9,9,0,\n", "a.csv").unwrap();
        write_document(&file, &document).unwrap();
        assert_eq!(read_document(&file).unwrap(), document);
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "the temporary file stayed behind");
        let nowhere = folder.path().join("no/such/tube.csv");
        assert!(write_document(&nowhere, &document).unwrap_err().to_string().contains("could not be saved"));
    }
}
