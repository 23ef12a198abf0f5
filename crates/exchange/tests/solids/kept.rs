//! Texts that are kept: what is written today is what was written before, byte for byte. Set `ELBOWROOM_KEEP` to write them anew
//! and look at what has changed.

use elbowroom_exchange::{Document, dxf, step};

use super::parts::{part, system};

fn is_kept(name: &str, text: &str) {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden").join(name);
    if std::env::var_os("ELBOWROOM_KEEP").is_some() {
        std::fs::write(&file, text).unwrap();
    }
    let kept = std::fs::read_to_string(&file).unwrap();
    let differs = kept.lines().zip(text.lines()).position(|(kept, text)| kept != text);
    assert!(kept == text, "{name} differs from line {:?} on", differs.map(|line| line + 1));
}

#[test]
fn a_tube_is_written_as_ever() {
    let tube = part(&[(200.0, 0.0, 90.0, 90.5), (120.0, 45.0, 30.0, 90.5)], 150.0);
    is_kept("tube.step", &step::write(&system(vec![tube]), "a").unwrap());
    // A drawing says every arc eight times over: a shallow one is enough.
    let shallow = part(&[(200.0, 0.0, 12.0, 90.5)], 150.0);
    is_kept("tube.dxf", &dxf::write(&Document::System(Box::new(system(vec![shallow]))), "a").unwrap());
}

#[test]
fn several_tubes_are_written_as_ever() {
    let mut other = part(&[], 150.0);
    other.name = "Tail".into();
    is_kept(
        "two-tubes.step",
        &step::write(&system(vec![part(&[(100.0, 0.0, 45.0, 90.5)], 150.0), other]), "a").unwrap(),
    );
}
