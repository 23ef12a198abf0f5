//! Lists the demo parts, so that one more file in the folder is one more part in the program.

use std::fmt::Write;
use std::path::PathBuf;
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").ok_or(io::ErrorKind::NotFound)?);
    let folder = root.join("..").join("..").join("demo-parts");
    println!("cargo:rerun-if-changed={}", folder.display());
    let mut files = Vec::new();
    for entry in fs::read_dir(&folder)? {
        let path = entry?.path();
        // Beside the parts lies the list of findings that tests expect of them.
        if path.extension().is_some_and(|extension| extension == "ron") && !path.ends_with("expected.ron") {
            files.push(fs::canonicalize(path)?);
        }
    }
    files.sort();
    let mut list = String::from("&[\n");
    for file in files {
        let stem = file.file_stem().unwrap_or_default().to_string_lossy();
        writeln!(list, "    ({stem:?}, include_str!({:?})),", file.display().to_string()).map_err(io::Error::other)?;
    }
    list.push_str("]\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").ok_or(io::ErrorKind::NotFound)?);
    fs::write(out.join("demo_parts.rs"), list)
}
