//! How files look and where they lie.

use std::collections::BTreeSet;

use super::tree::{none_of, paths, rust_files, texts};

/// Beyond this many lines a file is several files.
const LONGEST: usize = 800;

#[test]
fn no_file_is_too_long() {
    let long = |path: &str| [".rs", ".md", ".toml", ".ron"].iter().any(|end| path.ends_with(end));
    let offences: Vec<_> = texts(long)
        .iter()
        .filter(|file| file.text.lines().count() > LONGEST)
        .map(|file| format!("{}: {} lines", file.path, file.text.lines().count()))
        .collect();
    none_of(&offences, "a file has at most 800 lines");
}

#[test]
fn half_of_all_files_are_short() {
    let mut lengths: Vec<_> = rust_files().iter().map(|file| file.text.lines().count()).collect();
    lengths.sort_unstable();
    let median = lengths[lengths.len() / 2];
    assert!(median < 150, "the median Rust file has {median} lines; it should have fewer than 150");
}

#[test]
fn every_rust_file_says_what_it_is_for() {
    let offences: Vec<_> =
        rust_files().iter().filter(|file| !file.text.starts_with("//! ")).map(|file| file.path.clone()).collect();
    none_of(&offences, "a Rust file starts with a //! header");
}

#[test]
fn every_file_of_tests_is_run() {
    // A crate's tests from outside are one program, of which a file is part only when its `main.rs` says so.
    let files = rust_files();
    let main_of = |folder: &str| files.iter().find(|file| file.path == format!("{folder}/main.rs")).unwrap();
    let offences: Vec<_> = files
        .iter()
        .filter_map(|file| {
            let (folder, name) = file.path.rsplit_once('/')?;
            let module = name.strip_suffix(".rs")?;
            let of_a_crate = folder.starts_with("crates/") && folder.ends_with("/tests");
            let runs = module == "main" || !of_a_crate || main_of(folder).text.contains(&format!("\nmod {module};\n"));
            (!runs).then(|| format!("{} is no module of {folder}/main.rs", file.path))
        })
        .collect();
    none_of(&offences, "every file of tests is run");
}

#[test]
fn the_top_level_is_as_planned() {
    let planned = [
        ".cargo",
        ".ci",
        ".clippy.toml",
        ".gitattributes",
        ".gitignore",
        ".rustfmt.toml",
        "Cargo.lock",
        "Cargo.toml",
        "DEVELOPERS.md",
        "LICENSE",
        "README.md",
        "assets",
        "crates",
        "demo-parts",
        "tests",
    ];
    let found: BTreeSet<String> = paths().iter().filter_map(|path| path.split('/').next()).map(Into::into).collect();
    let offences: Vec<_> = found.iter().filter(|name| !planned.contains(&name.as_str())).cloned().collect();
    none_of(&offences, "nothing else lies at the top level");
    let needed =
        ["Cargo.lock", "Cargo.toml", "DEVELOPERS.md", "LICENSE", "README.md", "assets", "crates", "demo-parts"];
    let missing: Vec<_> = needed.iter().filter(|name| !found.contains(**name)).map(|name| (*name).into()).collect();
    none_of(&missing, "these lie at the top level");
}

/// `cargo test --workspace` builds by the settings for development, and examples and test programs of their own with it:
/// either would build a second engine, which takes as long as the first. `tests/engine.rs` has them tested otherwise.
#[test]
fn nothing_that_needs_the_engine_is_built_for_the_tests() {
    let of_the_engine = ["crates/viewport/", "crates/app/"];
    let built = |path: &&String| {
        let rest = of_the_engine.iter().find_map(|start| path.strip_prefix(start));
        rest.is_some_and(|rest| rest.starts_with("examples/") || rest.starts_with("tests/"))
    };
    let paths = paths();
    let offences: Vec<String> = paths.iter().filter(built).cloned().collect();
    none_of(&offences, "what needs the engine has no examples and no test programs");
    let manifests = texts(|path| of_the_engine.iter().any(|start| path == format!("{start}Cargo.toml")));
    assert_eq!(manifests.len(), 2, "both have a manifest");
    let open = manifests.iter().filter(|manifest| !manifest.text.contains("test = false"));
    none_of(&open.map(|manifest| manifest.path.clone()).collect::<Vec<_>>(), "its tests are left to tests/engine.rs");
}

#[test]
fn what_is_no_work_of_ours_has_its_licence_beside_it() {
    let paths = paths();
    let fonts = paths.iter().filter(|path| path.ends_with(".ttf") || path.ends_with(".otf"));
    let bare = fonts.filter(|font| {
        let folder = font.rsplit_once('/').map_or("", |(folder, _)| folder);
        !paths.iter().any(|path| {
            path.starts_with(folder) && path.to_lowercase().contains("licen")
                || path.starts_with(folder) && path.ends_with("OFL.txt")
        })
    });
    none_of(&bare.cloned().collect::<Vec<_>>(), "a font lies beside its licence");
}
