//! Words that no file of the repository may hold.

use super::tree::{none_of, rust_files, texts};

fn offences(markers: &[&str], files: &[super::tree::SourceFile]) -> Vec<String> {
    let mut offences = Vec::new();
    for file in files {
        for (number, line) in file.text.lines().enumerate() {
            if let Some(marker) = markers.iter().find(|marker| line.contains(**marker)) {
                offences.push(format!("{}:{}: {marker}", file.path, number + 1));
            }
        }
    }
    offences
}

// The markers are put together here, so that this file does not hold them itself.
#[test]
fn nothing_is_left_unfinished() {
    let markers = [
        concat!("TO", "DO"),
        concat!("FIX", "ME"),
        concat!("XX", "X:"),
        concat!("HA", "CK:"),
        concat!("under con", "struction"),
        concat!("Under con", "struction"),
        concat!("unimpl", "emented!"),
        concat!("to", "do!("),
    ];
    let ours = |path: &str| !path.ends_with("Cargo.lock") && !path.starts_with("assets/fonts");
    none_of(&offences(&markers, &texts(ours)), "unfinished work");
}

#[test]
fn no_test_is_switched_off() {
    none_of(&offences(&[concat!("#[ign", "ore")], &rust_files()), "tests that never run");
}

#[test]
fn the_repository_stands_on_its_own() {
    let markers = [concat!("../sha", "red"), concat!("/wo", "rk/sha", "red")];
    none_of(
        &offences(&markers, &texts(|path| !path.ends_with("Cargo.lock"))),
        "mentions of what is not in the repository",
    );
}
