//! The formats that can be read and written, one line each.

use std::fs::File;
use std::io::{Read, Write};
use std::path::Path;

use elbowroom_workbench::file::{EXTENSION, FileProblem, read_part, write_part};

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

/// Every format there is.
pub static FORMATS: &[Format] = &[
    Format { name: "part", extension: EXTENSION, read: read_part_bytes, write: write_part_bytes },
    Format { name: "points table", extension: "csv", read: read_points, write: write_points },
];

/// Files beyond this size are refused unread, bytes: four hundred times the table of ten thousand bends.
const LARGEST_FILE: u64 = 256 << 20;

fn read_part_bytes(bytes: &[u8], file: &str) -> Result<Document, FileProblem> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let line = 1 + bytes[..error.valid_up_to()].iter().filter(|byte| **byte == b'\n').count();
        TextError::at(line, "the file is no UTF-8 text", "a part file is plain text").in_file(file)
    })?;
    read_part(text, file).map(|part| Document::Part(Box::new(part)))
}

fn write_part_bytes(document: &Document, file: &str) -> Result<Vec<u8>, FileProblem> {
    match document {
        Document::Part(part) => Ok(write_part(part).into_bytes()),
        Document::Points(_) => {
            Err(TextError::whole("a part needs a tube, and there are only points", "say which tube it is")
                .in_file(file))
        }
    }
}

fn read_points(bytes: &[u8], file: &str) -> Result<Document, FileProblem> {
    points_table::read(bytes, file).map(Document::Points)
}

fn write_points(document: &Document, file: &str) -> Result<Vec<u8>, FileProblem> {
    let path = match document {
        Document::Points(path) => path.clone(),
        Document::Part(part) => points_table::of_part(part)
            .map_err(|cannot| TextError::whole(cannot.to_string(), cannot.right()).in_file(file))?,
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
        FileProblem {
            file: file.display().to_string(),
            line: None,
            what,
            right: format!("known are {}", known.join(" and ")),
        }
    })
}

/// Reads a file in the format its extension tells.
///
/// # Errors
/// Says what is wrong with the file, at which line, and what would be right.
pub fn read_document(file: &Path) -> Result<Document, FileProblem> {
    let format = format_of(file)?;
    let unreadable = |error: std::io::Error| FileProblem {
        file: file.display().to_string(),
        line: None,
        what: format!("the file cannot be read: {error}"),
        right: "name a file that is there and may be read".into(),
    };
    let mut bytes = Vec::new();
    File::open(file).and_then(|opened| opened.take(LARGEST_FILE + 1).read_to_end(&mut bytes)).map_err(unreadable)?;
    if bytes.len() as u64 > LARGEST_FILE {
        let what = format!("the file is larger than {} MiB", LARGEST_FILE >> 20);
        let right = format!("a {} is far smaller", format.name);
        return Err(FileProblem { file: file.display().to_string(), line: None, what, right });
    }
    (format.read)(&bytes, &file.display().to_string())
}

/// Writes a document in the format the file's extension tells: complete or not at all, through a
/// temporary file beside it.
///
/// # Errors
/// Says why the document has no such form, or why the file could not be written.
pub fn write_document(file: &Path, document: &Document) -> Result<(), FileProblem> {
    let format = format_of(file)?;
    let bytes = (format.write)(document, &file.display().to_string())?;
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let written = temporary_in(folder).and_then(|mut temporary| {
        temporary.write_all(&bytes)?;
        temporary.as_file().sync_all()?;
        temporary.persist(file)?;
        Ok(())
    });
    written.map_err(|error| FileProblem {
        file: file.display().to_string(),
        line: None,
        what: format!("the file cannot be written: {error}"),
        right: "name a folder that is there and may be written to".into(),
    })
}

/// A temporary file with the permissions of any other new file, not those of a secret.
fn temporary_in(folder: &Path) -> std::io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".elbowroom-");
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder)
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
        assert!(said.starts_with("/nowhere/tube.csv: the file cannot be read: "), "{said}");
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
        assert!(write_document(&nowhere, &document).unwrap_err().to_string().contains("cannot be written"));
    }
}
