//! Opening and saving under a typed name, and what happens to unsaved work when the program is left.

use crate::display;
use crate::drag::{demo, report};
use crate::program::Program;

#[test]
fn files_are_opened_and_saved_by_typed_names_and_quitting_asks_first() {
    let Some(display) = display::open(1280, 800) else { return };
    let folder = tempfile::tempdir().expect("a folder");
    demo("silencer-return.ron", folder.path());
    let mut program = Program::start(&display, folder.path(), None);
    program.wait_for("the first demo part", |entry| !entry.rows().is_empty());

    // The prompt starts in the current folder; the tab key finds the rest of the name.
    display.keys("ctrl+o");
    program.wait_for("the prompt", |entry| entry.place("widget", "Open").is_some());
    display.text("sil");
    display.keys("Tab");
    display.keys("Return");
    let opened =
        program.wait_for("the part", |entry| entry.line("title").is_some_and(|t| t.contains("Silencer return")));
    assert!(opened.rows().contains("180"), "{}", opened.text);

    program.type_into(&opened, "bend 1 straight", "10 in");
    let changed = program.wait_for("the typed straight", |entry| entry.line("undo") != Some("-"));
    assert!(changed.rows().contains("254"), "{}", changed.text);

    display.keys("ctrl+shift+s");
    program.wait_for("the prompt", |entry| entry.place("widget", "Save").is_some());
    display.keys("ctrl+a");
    display.text("longer.ron");
    display.keys("Return");
    let file = folder.path().join("longer.ron");
    program.wait_for("the new file", |entry| entry.line("title").is_some_and(|title| !title.contains("unsaved")));
    let straight = report(folder.path(), &file)["straights_mm"][0].as_f64().expect("a straight");
    assert!((straight - 254.0).abs() < 1e-9, "{straight}");

    let saved = program.shows();
    program.type_into(&saved, "bend 1 angle", "44");
    program.wait_for("the typed angle", |entry| entry.line("undo") != Some("-") && entry.rows().contains("44"));
    display.keys("ctrl+q");
    let asked = program.wait_for("the question", |entry| entry.place("widget", "Go back").is_some());
    display.click(asked.place("widget", "Go back").expect("it was just seen"));
    program.wait_for("the way back", |entry| entry.line("question") == Some("-"));
    display.keys("ctrl+q");
    let asked = program.wait_for("the question again", |entry| entry.place("widget", "Lose the changes").is_some());
    display.click(asked.place("widget", "Save").expect("a button that saves"));
    assert!(program.wait_for_end().success());
    let angle = report(folder.path(), &file)["bends"][0]["angle_deg"].as_f64().expect("an angle");
    assert!((angle - 44.0).abs() < 1e-9, "{angle}");
}
