//! The files of the checkout.

use std::path::{Path, PathBuf};
use std::process::Command;

/// A file: its path from the root, with `/` between folders, and its text.
pub struct SourceFile {
    pub path: String,
    pub text: String,
}

/// Every file that belongs to the repository: those that git knows, and those that it would take in.
pub fn paths() -> Vec<String> {
    let listing = Command::new("git")
        .args(["ls-files", "--cached", "--others", "--exclude-standard"])
        .current_dir(elbowroom_tests::root())
        .output();
    let listed = match listing {
        Ok(output) if output.status.success() => String::from_utf8(output.stdout).unwrap(),
        _ => String::new(),
    };
    let root = elbowroom_tests::root();
    let mut paths: Vec<String> = listed.lines().filter(|path| root.join(path).is_file()).map(Into::into).collect();
    if paths.is_empty() {
        // A source archive without a repository: take what lies there.
        walk(&root, &root, &mut paths);
    }
    paths.sort();
    paths.dedup();
    assert!(paths.len() > 50, "only {} files were found: the rules would prove nothing", paths.len());
    paths
}

fn walk(root: &Path, folder: &Path, paths: &mut Vec<String>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path: PathBuf = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() && name != ".git" && name != "target" {
            walk(root, &path, paths);
        } else if path.is_file() {
            paths.push(path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/"));
        }
    }
}

/// Every text file whose path passes, with its text. Pictures and fonts are passed over.
pub fn texts(passes: impl Fn(&str) -> bool) -> Vec<SourceFile> {
    let read = |path: String| {
        let bytes = std::fs::read(elbowroom_tests::root().join(&path)).unwrap();
        String::from_utf8(bytes).ok().map(|text| SourceFile { path, text })
    };
    paths().into_iter().filter(|path| passes(path)).filter_map(read).collect()
}

/// Every Rust file.
pub fn rust_files() -> Vec<SourceFile> {
    texts(|path| path.ends_with(".rs"))
}

/// Fails with the list of all offences, if there are any.
#[track_caller]
pub fn none_of(offences: &[String], rule: &str) {
    assert!(offences.is_empty(), "{rule}:\n  {}", offences.join("\n  "));
}
