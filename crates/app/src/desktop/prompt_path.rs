//! Typing a path with completion from the folder: the part of the file prompt that has no screen.

use std::path::{Path, PathBuf};

/// At most so many entries of a folder are looked at, so that a huge one cannot hold up the window.
const MOST_ENTRIES: usize = 5_000;

/// Something in a folder.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Entry {
    /// Files come after folders.
    pub is_file: bool,
    /// Its name in the folder.
    pub name: String,
}

/// What a typed text names: `~` is the home folder, and a relative path starts at `base`.
pub fn path_of(text: &str, base: &Path) -> PathBuf {
    let text = text.trim();
    let home = || std::env::home_dir().unwrap_or_else(|| base.to_path_buf());
    match text.strip_prefix('~') {
        Some("") => home(),
        Some(rest) if rest.starts_with('/') => home().join(rest.trim_start_matches('/')),
        _ => base.join(text),
    }
}

/// The folder that a typed text is in, as typed, and the beginning of a name after it.
pub fn split(text: &str) -> (&str, &str) {
    let is_separator = |letter: char| letter == '/' || (cfg!(windows) && letter == '\\');
    match text.rfind(is_separator) {
        Some(at) => text.split_at(at + 1),
        None => ("", text),
    }
}

/// Folders, and files with one of `extensions`, sorted by name. Hidden ones stay hidden.
///
/// # Errors
/// Says why the folder cannot be read.
pub fn list(folder: &Path, extensions: &[&str]) -> std::io::Result<Vec<Entry>> {
    let mut entries = Vec::new();
    for entry in std::fs::read_dir(folder)?.take(MOST_ENTRIES).flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = entry.path();
        let fits = || path.extension().is_some_and(|had| extensions.iter().any(|one| had.eq_ignore_ascii_case(one)));
        let is_file = !path.is_dir();
        if !name.starts_with('.') && (!is_file || fits()) {
            entries.push(Entry { is_file, name });
        }
    }
    entries.sort();
    Ok(entries)
}

/// The entries that begin as typed, whatever the case.
pub fn fitting<'a>(entries: &'a [Entry], beginning: &str) -> Vec<&'a Entry> {
    let beginning = beginning.to_lowercase();
    entries.iter().filter(|entry| entry.name.to_lowercase().starts_with(&beginning)).collect()
}

/// The text with `entry` in place of the beginning of a name.
pub fn with_entry(text: &str, entry: &Entry) -> String {
    let (folder, _) = split(text);
    format!("{folder}{}{}", entry.name, if entry.is_file { "" } else { "/" })
}

/// The text completed as far as the entries leave no choice.
pub fn completed(text: &str, entries: &[Entry]) -> String {
    let (folder, beginning) = split(text);
    match fitting(entries, beginning).as_slice() {
        [] => text.to_string(),
        [only] => with_entry(text, only),
        [first, rest @ ..] => {
            let same = |other: &&Entry| first.name.chars().zip(other.name.chars()).take_while(|(a, b)| a == b).count();
            let shared = rest.iter().map(same).min().unwrap_or(0);
            let shared: String = first.name.chars().take(shared).collect();
            if shared.chars().count() > beginning.chars().count() { format!("{folder}{shared}") } else { text.into() }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn folder() -> tempfile::TempDir {
        let folder = tempfile::tempdir().unwrap();
        for name in ["exhaust front.ron", "exhaust rear.ron", "Tail.csv", "notes.txt", ".hidden.ron"] {
            std::fs::write(folder.path().join(name), "").unwrap();
        }
        std::fs::create_dir(folder.path().join("car")).unwrap();
        folder
    }

    #[test]
    fn a_folder_lists_its_folders_first_and_only_files_that_open() {
        let folder = folder();
        let names: Vec<_> = list(folder.path(), &["ron", "csv"]).unwrap().into_iter().map(|entry| entry.name).collect();
        assert_eq!(names, ["car", "Tail.csv", "exhaust front.ron", "exhaust rear.ron"]);
    }

    #[test]
    fn completion_goes_as_far_as_there_is_no_choice() {
        let folder = folder();
        let entries = list(folder.path(), &["ron", "csv"]).unwrap();
        let cases =
            [("here/ex", "here/exhaust "), ("here/exhaust r", "here/exhaust rear.ron"), ("here/c", "here/car/")];
        for (typed, becomes) in cases.into_iter().chain([("t", "Tail.csv"), ("nothing", "nothing"), ("", "")]) {
            assert_eq!(completed(typed, &entries), becomes, "{typed}");
        }
    }

    #[test]
    fn a_typed_path_is_taken_from_the_base_unless_it_stands_alone() {
        let base = Path::new("/work/parts");
        assert_eq!(path_of("a.ron", base), Path::new("/work/parts/a.ron"));
        assert_eq!(path_of(" /tmp/b.ron ", base), Path::new("/tmp/b.ron"));
        assert_eq!(path_of("~x/a", base), Path::new("/work/parts/~x/a"));
        let home = std::env::home_dir().unwrap();
        assert_eq!(path_of("~/c.ron", base), home.join("c.ron"));
    }
}
