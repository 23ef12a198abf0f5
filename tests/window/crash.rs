//! A crash loses nothing that is older than two seconds: `kill -9`, start again, take the work back.

use std::time::Duration;

use crate::display;
use crate::drag::{demo, report};
use crate::program::Program;

/// The most that may be lost.
const KEPT_WITHIN: Duration = Duration::from_secs(2);

#[test]
fn work_is_taken_back_after_the_program_was_killed() {
    let Some(display) = display::open(1440, 900) else { return };
    let folder = tempfile::tempdir().expect("a folder");
    let file = demo("cross-link.ron", folder.path());
    let before = std::fs::read(&file).expect("the demo part");

    let mut program = Program::start(&display, folder.path(), Some(&file));
    let sound = program.wait_for("the demo part", |entry| entry.panel("verdict").contains("Bends as drawn"));
    program.type_into(&sound, "bend 2 angle", "33.25");
    let typed = program.wait_for("the typed angle", |entry| entry.line("undo") != Some("-"));
    std::thread::sleep(KEPT_WITHIN);
    program.kill();
    drop(program);
    assert_eq!(std::fs::read(&file).expect("the file"), before, "the part's own file is as it was");

    let mut program = Program::start(&display, folder.path(), None);
    let offer = program.wait_for("the offer", |entry| entry.place("widget", "Take it back").is_some());
    assert!(offer.panel("question").contains("Cross link"), "{}", offer.text);
    display.click(offer.place("widget", "Take it back").expect("it was just seen"));
    let back = program.wait_for("the work", |entry| entry.line("question") == Some("-"));
    assert_eq!(back.rows(), typed.rows());
    assert!(back.line("title").is_some_and(|title| title.contains("Cross link (unsaved)")), "{}", back.text);

    display.keys("ctrl+s");
    program
        .wait_for("the file to be saved", |entry| entry.line("title").is_some_and(|title| !title.contains("unsaved")));
    let report = report(folder.path(), &file);
    let angle = report["bends"][1]["angle_deg"].as_f64().expect("an angle");
    assert!((angle - 33.25).abs() < 1e-9, "{report:#}");

    // A clean end leaves nothing behind that the next start would offer.
    display.keys("ctrl+q");
    assert!(program.wait_for_end().success());
    let mut program = Program::start(&display, folder.path(), None);
    let next = program.wait_for("the first demo part", |entry| !entry.panel("verdict").is_empty());
    assert_eq!(next.line("question"), Some("-"), "{}", next.text);
}
