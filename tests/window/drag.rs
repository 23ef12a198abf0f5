//! The main job: drag a vertex and see verdict, strip and marks follow; type a row; undo; save; read back.

use std::path::{Path, PathBuf};

use crate::account::Entry;
use crate::display;
use crate::program::{self, Program};

/// A demo part, copied to where it may be changed.
pub fn demo(name: &str, folder: &Path) -> PathBuf {
    let from = elbowroom_tests::root().join("demo-parts").join(name);
    let to = folder.join(name);
    std::fs::copy(&from, &to).expect("the demo part is there");
    to
}

/// What `elbowroom check` reports of a file.
pub fn report(folder: &Path, file: &Path) -> serde_json::Value {
    let done = program::command(folder).args(["check", "--format", "json"]).arg(file).output().expect("it runs");
    serde_json::from_slice(&done.stdout).unwrap_or_else(|error| {
        panic!("no report on {}: {error}\n{}", file.display(), String::from_utf8_lossy(&done.stderr))
    })
}

fn has_stop_mark(entry: &Entry) -> bool {
    entry.lines("mark").any(|mark| mark.starts_with("stop"))
}

/// The place in the window of the middle of a mark of this severity.
fn stop_mark_place(entry: &Entry) -> (i32, i32) {
    let place = entry.lines("mark").filter(|mark| mark.starts_with("stop")).find_map(|mark| {
        let (x, y) = mark.split_once(" at ")?.1.split_once(' ')?;
        Some((x.parse::<f64>().ok()?.round() as i32, y.parse::<f64>().ok()?.round() as i32))
    });
    place.unwrap_or_else(|| panic!("no stop mark is in sight:\n{}", entry.text))
}

#[test]
fn a_vertex_is_dragged_a_row_typed_and_the_work_saved() {
    let Some(display) = display::open(1440, 900) else { return };
    let folder = tempfile::tempdir().expect("a folder");
    let file = demo("cross-link.ron", folder.path());
    let mut program = Program::start(&display, folder.path(), Some(&file));

    let sound = program.wait_for("the demo part", |entry| entry.panel("verdict").contains("Bends as drawn"));
    assert!(!has_stop_mark(&sound) && sound.line("undo") == Some("-"), "{}", sound.text);
    let handle = |entry: &Entry, bend: usize| {
        let name = format!("Handle(Vertex({bend}))");
        entry.place("handle", &name).unwrap_or_else(|| panic!("no {name} in sight:\n{}", entry.text))
    };
    let (first, second) = (handle(&sound, 0), handle(&sound, 1));
    let near = (first.0 + (second.0 - first.0) * 3 / 4, first.1 + (second.1 - first.1) * 3 / 4);

    // While the button is still down everything follows, and nothing is history yet.
    program.hold(first, near);
    let held = program.wait_for("the verdict to turn", |entry| {
        entry.panel("verdict").contains("Cannot be bent as drawn") && has_stop_mark(entry)
    });
    assert_ne!(held.panel("strip"), sound.panel("strip"), "the strip follows");
    assert_ne!(held.rows(), sound.rows(), "the rows follow");
    assert_eq!(held.line("undo"), Some("-"), "a preview is no step");

    display.release();
    let dragged = program.wait_for("the drag to become a step", |entry| entry.line("undo") != Some("-"));
    assert!(dragged.panel("verdict").contains("Cannot be bent as drawn"), "{}", dragged.text);
    assert!(dragged.line("title").is_some_and(|title| title.contains("unsaved")), "{}", dragged.text);

    // The mark is on the tube itself, in its own colour, and was not there before.
    let at = stop_mark_place(&dragged);
    display.point((at.0.max(60) - 50, at.1.max(60) + 140));
    let start = std::time::Instant::now();
    while display.picture(folder.path()).vermillion_near(at, 24) < 40 {
        assert!(start.elapsed() < std::time::Duration::from_secs(30), "no mark is seen at {at:?}:\n{}", dragged.text);
    }

    display.keys("ctrl+z");
    let undone = program.wait_for("the drag to be taken back", |entry| entry.line("undo") == Some("-"));
    assert_eq!(undone.rows(), sound.rows());
    assert!(undone.panel("verdict").contains("Bends as drawn") && !has_stop_mark(&undone), "{}", undone.text);
    let start = std::time::Instant::now();
    while display.picture(folder.path()).vermillion_near(at, 24) > 0 {
        assert!(start.elapsed() < std::time::Duration::from_secs(30), "the mark at {at:?} stays");
    }

    program.type_into(&undone, "bend 1 angle", "62.5");
    let typed = program.wait_for("the typed angle", |entry| entry.line("undo") != Some("-"));
    assert!(typed.rows().contains("62.5"), "{}", typed.text);

    display.keys("Escape");
    display.keys("ctrl+z");
    let undone = program.wait_for("the angle to be taken back", |entry| entry.line("undo") == Some("-"));
    assert_eq!(undone.rows(), sound.rows());
    display.keys("ctrl+shift+z");
    program.wait_for("the angle again", |entry| entry.rows() == typed.rows());

    display.keys("ctrl+s");
    program
        .wait_for("the file to be saved", |entry| entry.line("title").is_some_and(|title| !title.contains("unsaved")));
    let report = report(folder.path(), &file);
    let angle = report["bends"][0]["angle_deg"].as_f64().expect("an angle");
    assert!((angle - 62.5).abs() < 1e-9, "{report:#}");
}
