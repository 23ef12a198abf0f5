//! What all native files share: RON, a format tag with a version at the head, plain words for mistakes.

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

use super::in_words::in_words;
use super::problem::FileProblem;

/// One version of a native file: the stamp that its first field holds, and how a text of it is read.
///
/// A version is frozen once the program has been given away: what it holds never changes, a further field is a
/// further version.
pub(crate) struct Version<T> {
    /// The value of the first field, such as `elbowroom-part/1`.
    pub stamp: &'static str,
    /// Reads a text of this version, and brings it up to what the program works with today.
    pub read: fn(&str, &str) -> Result<T, FileProblem>,
}

/// A kind of native file with every version of it that is read.
pub(crate) struct Format<T: 'static> {
    /// What a person calls it, such as `part`.
    pub noun: &'static str,
    /// From the oldest to the newest, which is the one that is written.
    pub versions: &'static [Version<T>],
}

/// The first field, read while everything else is passed over.
#[derive(Deserialize)]
struct Head {
    format: Option<String>,
}

impl<T> Format<T> {
    /// Reads a text in the version that it says it is in: the one place where versions are told apart.
    ///
    /// # Errors
    /// Says on which line the text is no RON, holds another kind of file or a version that is not known, or
    /// what is wrong in it.
    pub fn read(&self, text: &str, file: &str) -> Result<T, FileProblem> {
        let head: Head = parse(text, file)?;
        let right = format!("write format: \"{}\" as the first field", self.newest());
        let Some(stamp) = head.format else {
            let what = format!("this is no Elbowroom {}: the field format is missing", self.noun);
            return Err(FileProblem::on_line(file, 1, what, right));
        };
        if let Some(version) = self.versions.iter().find(|version| version.stamp == stamp) {
            return (version.read)(text, file);
        }
        let line =
            text.lines().position(|line| line.trim_start().trim_start_matches('(').trim_start().starts_with("format"));
        let refuse = |what, right| Err(FileProblem::on_line(file, line.map_or(1, |index| index + 1), what, right));
        let Some((tag, number)) = stamp.split_once('/') else {
            return refuse(format!("the format \"{stamp}\" is not known"), right);
        };
        let Some(newest) = self.newest_of(tag) else {
            return refuse(format!("the format \"{stamp}\" is not that of a {}", self.noun), right);
        };
        match number.parse::<u32>() {
            Ok(number) if number > newest => {
                let what = format!("it is written in version {number} of the {} format", self.noun);
                refuse(what, format!("this program reads up to version {newest}: open it with a newer one"))
            }
            _ => refuse(format!("\"{number}\" is no version"), right),
        }
    }

    /// The stamp of a text in an older version than the one that is written today; `None` of any other text.
    pub fn older(&self, text: &str) -> Option<&'static str> {
        let stamp = parse::<Head>(text, "").ok()?.format?;
        let known = self.versions.iter().map(|version| version.stamp).find(|known| *known == stamp)?;
        (known != self.newest()).then_some(known)
    }

    /// The stamp of what is written today.
    pub fn newest(&self) -> &'static str {
        self.versions.last().map_or("", |version| version.stamp)
    }

    /// The highest version that is read under a tag, such as `elbowroom-part`.
    fn newest_of(&self, tag: &str) -> Option<u32> {
        let under = |version: &Version<T>| version.stamp.split_once('/').filter(|(of, _)| *of == tag)?.1.parse().ok();
        self.versions.iter().filter_map(under).max()
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

/// Writes a value as RON under a commented head line; what lies deeper than `depth` stands on one line.
pub(crate) fn print<T: Serialize>(head: &str, value: &T, depth: usize) -> String {
    let config = PrettyConfig::new().new_line("\n").indentor("    ").depth_limit(depth);
    let body = options()
        .to_string_pretty(value, config)
        .expect("storage types are plain structs, which RON can always write into a string");
    format!("// {head}\n{body}\n")
}
