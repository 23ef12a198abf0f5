//! What all native files share: RON, a format tag with a version at the head, plain words for mistakes.

use ron::error::SpannedError;
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::FileProblem;

/// A kind of native file, and the newest version of it that is known.
pub(crate) struct Format {
    /// The tag before the version, such as `elbowroom-part`.
    pub tag: &'static str,
    /// What a person calls it, such as `part`.
    pub noun: &'static str,
    /// The newest version that is known; all from 1 up to it are read.
    pub newest: u32,
}

/// Parts.
pub(crate) const PART: Format = Format { tag: "elbowroom-part", noun: "part", newest: 1 };
/// Shops.
pub(crate) const SHOP: Format = Format { tag: "elbowroom-shop", noun: "shop", newest: 1 };

/// Libraries of materials.
pub(crate) const MATERIALS: Format = Format { tag: "elbowroom-materials", noun: "materials library", newest: 1 };

/// The first field, read while everything else is passed over.
#[derive(Deserialize)]
struct Head {
    format: Option<String>,
}

impl Format {
    /// The value of the first field in the given version.
    pub fn stamp(&self, version: u32) -> String {
        format!("{}/{version}", self.tag)
    }

    /// The version in which a file is written.
    ///
    /// # Errors
    /// Says where the text is no RON, holds another kind of file, or a version that is not known.
    pub fn version(&self, text: &str, file: &str) -> Result<u32, FileProblem> {
        let head: Head = parse(text, file)?;
        let right = format!("write format: \"{}\" as the first field", self.stamp(self.newest));
        let Some(stamp) = head.format else {
            let what = format!("this is no Elbowroom {}: the field format is missing", self.noun);
            return Err(FileProblem::on_line(file, 1, what, right));
        };
        let line =
            text.lines().position(|line| line.trim_start().trim_start_matches('(').trim_start().starts_with("format"));
        let line = line.map_or(1, |index| index + 1);
        let Some((tag, version)) = stamp.split_once('/') else {
            return Err(FileProblem::on_line(file, line, format!("the format \"{stamp}\" is not known"), right));
        };
        if tag != self.tag {
            let what = format!("the format \"{stamp}\" is not that of a {}", self.noun);
            return Err(FileProblem::on_line(file, line, what, right));
        }
        match version.parse::<u32>() {
            Ok(version) if (1..=self.newest).contains(&version) => Ok(version),
            Ok(version) if version > self.newest => {
                let what = format!("it is written in version {version} of the {} format", self.noun);
                let right = format!("this program reads up to version {}: open it with a newer one", self.newest);
                Err(FileProblem::on_line(file, line, what, right))
            }
            _ => Err(FileProblem::on_line(file, line, format!("\"{version}\" is no version"), right)),
        }
    }
}

/// How this program's files are written.
pub(crate) fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// Reads a value from RON.
///
/// # Errors
/// Says on which line what is wrong.
pub(crate) fn parse<T: DeserializeOwned>(text: &str, file: &str) -> Result<T, FileProblem> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    options().from_str(text).map_err(|error| in_words(error, text, file))
}

/// Writes a value as RON under a commented head line.
pub(crate) fn print<T: Serialize>(head: &str, value: &T) -> String {
    let config = PrettyConfig::new().new_line("\n").indentor("    ").depth_limit(3);
    let body = options()
        .to_string_pretty(value, config)
        .expect("storage types are plain structs, which RON can always write into a string");
    format!("// {head}\n{body}\n")
}

/// Puts an error of the RON reader into words for the person who wrote the file.
fn in_words(error: SpannedError, text: &str, file: &str) -> FileProblem {
    use ron::Error;
    let ends_there = is_end(&error, text);
    let list = |known: &[&str]| known.join(", ");
    let (what, right) = match error.code {
        Error::NoSuchStructField { expected, found, .. } => {
            (format!("there is no field {found}"), format!("the fields here are {}", list(expected)))
        }
        Error::MissingStructField { field, .. } => {
            (format!("the field {field} is missing"), "it must stand before this place".to_owned())
        }
        Error::DuplicateStructField { field, .. } => {
            (format!("the field {field} stands twice"), "remove one of the two".to_owned())
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            (format!("{found} is not known"), format!("it must be one of {}", list(expected)))
        }
        Error::InvalidValueForType { expected, found } => {
            (format!("{found} stands where it cannot"), format!("it must be {expected}"))
        }
        Error::ExpectedDifferentLength { expected, found } => {
            (format!("there are {found} values here"), format!("it must be {expected}"))
        }
        Error::TrailingCharacters => {
            ("there is more text after the end".to_owned(), "the file ends with its last closing bracket".to_owned())
        }
        Error::Message(text) => (text, String::new()),
        // Where a file is cut off, the reader misses whatever would have come next.
        _ if ends_there => ("the file ends too early".to_owned(), "take a whole copy of it".to_owned()),
        Error::ExpectedFloat | Error::ExpectedInteger => {
            ("there is no number where one must stand".to_owned(), "write a plain number such as 50.8".to_owned())
        }
        Error::ExpectedString => {
            ("there is no text where some must stand".to_owned(), "write text between double quotes".to_owned())
        }
        other => {
            let text = other.to_string();
            (format!("this is not as RON is written: {}", text.trim_end_matches('.')), String::new())
        }
    };
    FileProblem::on_line(file, error.span.end.line, what, right)
}

/// Whether an error lies at the very end of a text.
fn is_end(error: &SpannedError, text: &str) -> bool {
    let text = text.trim_end();
    let (line, last) = text.lines().enumerate().last().unwrap_or((0, ""));
    let end = (line + 1, last.chars().count());
    (error.span.end.line, error.span.end.col) >= end
}
