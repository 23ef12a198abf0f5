//! The formats that can be read and written, one line each.

use std::path::Path;

use elbowroom_bending::{Part, Shop, System};
use elbowroom_workbench::file::{
    EXTENSION, FileProblem, read_bytes, read_system, save_atomically, sweep_beside, text_of, write_system,
};

use crate::document::{Line, Read};
use crate::error::TextError;
use crate::sheet::{self, Sheet, SheetOptions};
use crate::{Document, dxf, mesh, points_table, step};

/// Reads a file's bytes. The name of the file stands in the errors.
pub type Reader = fn(&[u8], &str) -> Result<Read, FileProblem>;

/// Turns a document into a file's bytes, as a shop judges it where the format tells that. The name of the file stands in
/// the errors.
pub type Writer = fn(&Document, &Shop, &str) -> Result<Vec<u8>, FileProblem>;

/// A file format.
pub struct Format {
    /// What it is called, such as `points table`.
    pub name: &'static str,
    /// Its file name extensions, without the dot, in lower case; the usual one first.
    pub extensions: &'static [&'static str],
    /// Whether a file may hold several tubes.
    pub several: bool,
    /// Whether a file says which tube its centreline is of: one that does not can be written without.
    pub holds_tube: bool,
    /// Reads it; `None` for a format that is only written.
    pub read: Option<Reader>,
    /// Writes it; `None` for a format that is only read.
    pub write: Option<Writer>,
}

/// Every format there is: what the command line, the dialogs of the window and its export know.
pub static FORMATS: &[Format] = &[
    Format {
        name: "part or system",
        extensions: &[EXTENSION],
        several: true,
        holds_tube: true,
        read: Some(read_native),
        write: Some(write_native),
    },
    Format {
        name: "points table",
        extensions: &["csv"],
        several: false,
        holds_tube: false,
        read: Some(read_points),
        write: Some(write_points),
    },
    Format {
        name: "STEP solids",
        extensions: &["step", "stp"],
        several: true,
        holds_tube: true,
        read: Some(step::read),
        write: Some(write_step),
    },
    Format {
        name: "DXF drawing",
        extensions: &["dxf"],
        several: true,
        holds_tube: false,
        read: Some(dxf::read),
        write: Some(write_dxf),
    },
    Format {
        name: "STL mesh",
        extensions: &["stl"],
        several: true,
        holds_tube: true,
        read: None,
        write: Some(write_stl),
    },
    Format {
        name: "GLB mesh",
        extensions: &["glb"],
        several: true,
        holds_tube: true,
        read: None,
        write: Some(write_glb),
    },
    Format {
        name: "printed sheet",
        extensions: &["pdf"],
        several: true,
        holds_tube: true,
        read: None,
        write: Some(write_pdf),
    },
    Format {
        name: "drawing for the screen",
        extensions: &["svg"],
        several: true,
        holds_tube: true,
        read: None,
        write: Some(write_svg),
    },
];

impl Format {
    /// The usual extension of its files.
    pub fn extension(&self) -> &'static str {
        self.extensions[0]
    }

    /// Whether it is the program's own.
    pub fn is_native(&self) -> bool {
        self.extension() == EXTENSION
    }
}

fn read_native(bytes: &[u8], file: &str) -> Result<Read, FileProblem> {
    read_system(text_of(bytes, file)?, file).map(|system| Document::System(Box::new(system)).into())
}

fn write_native(document: &Document, _: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    Ok(write_system(tubes_of(document, file)?).into_bytes())
}

/// The tubes of a document.
fn tubes_of<'a>(document: &'a Document, file: &str) -> Result<&'a System, FileProblem> {
    match document {
        Document::System(system) => Ok(system),
        Document::Lines(_) => {
            Err(TextError::whole("a part needs a tube, and there is only its centreline", "say which tube it is")
                .in_file(file))
        }
    }
}

fn read_points(bytes: &[u8], file: &str) -> Result<Read, FileProblem> {
    let path = elbowroom_bending::Path::Vertices(points_table::read(text_of(bytes, file)?, file)?);
    Ok(Document::Lines(vec![Line { name: String::new(), path }]).into())
}

fn write_points(document: &Document, _: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    let (paths, names): (Vec<_>, String) = match document {
        Document::Lines(lines) => {
            let names: Vec<_> = lines.iter().map(|line| format!("\u{201c}{}\u{201d}", line.name)).collect();
            (lines.iter().map(|line| &line.path).collect(), names.join(", "))
        }
        Document::System(system) => (system.tubes().iter().map(|tube| &tube.part.path).collect(), system.names_told()),
    };
    let [path] = paths.as_slice() else {
        let what = format!("a points table holds one tube, and there are {}", paths.len());
        return Err(TextError::whole(what, format!("name one of {names}")).in_file(file));
    };
    let path = points_table::of_path(path)
        .map_err(|cannot| TextError::whole(cannot.to_string(), cannot.right()).in_file(file))?;
    Ok(points_table::write(&path).into_bytes())
}

fn write_step(document: &Document, _: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    step::write(tubes_of(document, file)?, file).map(String::into_bytes)
}

fn write_dxf(document: &Document, _: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    dxf::write(document, file).map(String::into_bytes)
}

fn write_stl(document: &Document, _: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    mesh::write_stl(tubes_of(document, file)?, file)
}

fn write_glb(document: &Document, shop: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    mesh::write_glb(tubes_of(document, file)?, shop, file)
}

fn write_pdf(document: &Document, shop: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    let sheet = sheet_of(document, shop, file)?;
    sheet.pdf().map_err(|why| TextError::whole(why.to_string(), "tell us how it came about").in_file(file))
}

fn write_svg(document: &Document, shop: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    Ok(sheet_of(document, shop, file)?.svg().into_bytes())
}

/// The sheet of a document as it is printed where nothing else is asked for: on A4, in the units of the part.
fn sheet_of(document: &Document, shop: &Shop, file: &str) -> Result<Sheet, FileProblem> {
    let tubes = tubes_of(document, file)?.tubes();
    let parts: Vec<Part> = tubes.iter().map(|tube| Part::clone(&tube.part)).collect();
    let title = match parts.as_slice() {
        [part] => part.name.clone(),
        _ => tubes_of(document, file)?.name().to_owned(),
    };
    let options = SheetOptions { date: sheet::today(), ..SheetOptions::default() };
    Sheet::of(&title, &parts, shop, "", &options).map_err(|why| TextError::whole(why.to_string(), "").in_file(file))
}

/// The format of a file by its extension, in either case.
///
/// # Errors
/// Names the extensions that are known.
pub fn format_of(file: &Path) -> Result<&'static Format, FileProblem> {
    let extension = file.extension().map(|extension| extension.to_string_lossy().to_lowercase());
    let named = extension.as_deref();
    let found = FORMATS.iter().find(|format| named.is_some_and(|named| format.extensions.contains(&named)));
    found.ok_or_else(|| {
        let what = match extension {
            Some(extension) => format!("files that end in .{extension} are unknown here"),
            None => "the file name has no extension, so its format is unknown".into(),
        };
        FileProblem::whole(file.display().to_string(), what, format!("known are {}", told(|_| true)))
    })
}

/// The extensions of every format that passes, with what they are called, such as `.ron (part or system)`.
fn told(passes: impl Fn(&Format) -> bool) -> String {
    let known = FORMATS.iter().filter(|format| passes(format));
    let known: Vec<_> = known.map(|format| format!(".{} ({})", format.extensions.join(", ."), format.name)).collect();
    known.join("; ")
}

/// Reads a file in the format its extension tells.
///
/// # Errors
/// Says what is wrong with the file, at which line, and what would be right.
pub fn read_document(file: &Path) -> Result<Read, FileProblem> {
    let (format, name) = (format_of(file)?, file.display().to_string());
    let Some(read) = format.read else {
        let what = format!("files that end in .{} are only written here, never read", format.extension());
        return Err(FileProblem::whole(name, what, format!("read are {}", told(|format| format.read.is_some()))));
    };
    read(&read_bytes(file)?, &name)
}

/// Writes a document in the format the file's extension tells: complete or not at all. The shop is the one that judges it,
/// where the format tells that.
///
/// # Errors
/// Says why the document has no such form, or why the file could not be written.
pub fn write_document(file: &Path, document: &Document, shop: &Shop) -> Result<(), FileProblem> {
    save_atomically(file, bytes_of(file, document, shop)?)?;
    sweep_beside(file);
    Ok(())
}

fn bytes_of(file: &Path, document: &Document, shop: &Shop) -> Result<Vec<u8>, FileProblem> {
    let (format, name) = (format_of(file)?, file.display().to_string());
    let Some(write) = format.write else {
        let what = format!("files that end in .{} are only read here, never written", format.extension());
        return Err(FileProblem::whole(name, what, format!("written are {}", told(|format| format.write.is_some()))));
    };
    write(document, shop, &name)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use elbowroom_workbench::file::built_in_shop;

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
        let read = read_points(b"x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n9,0,0,1\n9,9,0,\n", "a.csv").unwrap();
        write_document(&file, &read.document, &built_in_shop()).unwrap();
        assert_eq!(read_document(&file).unwrap(), read);
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 1, "the temporary file stayed behind");
        let nowhere = folder.path().join("no/such/tube.csv");
        let refused = write_document(&nowhere, &read.document, &built_in_shop()).unwrap_err();
        assert!(refused.to_string().contains("could not be saved"));
    }
}
