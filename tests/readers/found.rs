//! The other readers, where they are installed, and a place to work in with them.

use std::path::{Path, PathBuf};
use std::process::Command;

use elbowroom_bending::System;
use elbowroom_exchange::{Document, read_document, write_document};
use elbowroom_geometry::{Centreline, Point3};
use elbowroom_workbench::file::built_in_shop;

/// The interpreter of the environment that the others are installed in; `None`, and a word on standard error, where there is none.
pub fn interpreter() -> Option<PathBuf> {
    let named = std::env::var_os("ELBOWROOM_READERS").map(PathBuf::from);
    let home = std::env::var_os("HOME").map(|home| PathBuf::from(home).join(".cache/elbowroom/readers-venv"));
    let python = named.or(home)?.join("bin/python");
    if python.is_file() {
        return Some(python);
    }
    let told = format!(
        "PASSED OVER: the independent readers are not installed at {}.\n\
         To install them: python3 -m venv FOLDER && FOLDER/bin/pip install -r tests/readers/requirements.txt, and name FOLDER in \
         ELBOWROOM_READERS.",
        python.display()
    );
    assert!(std::env::var_os("CI").is_none(), "{told}");
    eprintln!("{told}");
    None
}

/// Runs one of our scripts with arguments.
#[track_caller]
pub fn run(python: &Path, script: &str, arguments: &[&Path]) {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("readers").join(script);
    // Nothing that the interpreter makes of the scripts is left beside them.
    let output = Command::new(python).env("PYTHONDONTWRITEBYTECODE", "1").arg(script).args(arguments).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

/// The tubes that a file holds.
#[track_caller]
pub fn tubes(file: &Path) -> System {
    match read_document(file).unwrap_or_else(|problem| panic!("{problem}")).document {
        Document::System(system) => *system,
        Document::Lines(_) => panic!("{} holds no tube", file.display()),
    }
}

/// Writes a system.
#[track_caller]
pub fn write(file: &Path, system: &System) {
    write_document(file, &Document::System(Box::new(system.clone())), &built_in_shop()).unwrap();
}

/// How far a centreline lies from vertices with one radius at most, mm: its ends, and the corners that its straights make.
pub fn off_mm(path: &elbowroom_bending::Path, points: &[[f64; 3]], clr_mm: f64) -> f64 {
    let path = path.bend_form().path;
    let vertices = path.to_vertex_form().unwrap();
    assert_eq!(vertices.points().len(), points.len(), "{vertices:?}");
    let radii = vertices.clr().iter().map(|clr| (clr.mm() - clr_mm).abs());
    let places = vertices.points().iter().zip(points).map(|(point, wanted)| (point - Point3::from(*wanted)).norm());
    radii.chain(places).fold(0.0, f64::max)
}

/// The length of a centreline, mm.
pub fn length_mm(path: &elbowroom_bending::Path) -> f64 {
    Centreline::of(&path.bend_form().path).length_mm()
}
