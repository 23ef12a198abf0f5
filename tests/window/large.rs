//! A points table of two megabytes in the window: how much memory it takes, and that it can be worked on.

use std::fmt::Write as _;

use crate::display;
use crate::program::Program;

/// A table of so many points on a square stair that climbs clear of itself: nothing is in the way of any bend but what the checks say
/// of so long a tube.
fn table(points: usize) -> String {
    let mut text = String::from("x_mm,y_mm,z_mm,clr_mm\n");
    for n in 0..points {
        let clr = if n == 0 || n + 1 == points { "" } else { "90.5" };
        // Writing to a string cannot fail.
        let [x, y] = [[0.0, 0.0], [400.0, 0.0], [400.0, 400.0], [0.0, 400.0]][n % 4];
        let _ = writeln!(text, "{x:.4},{y:.4},{:.4},{clr}", n as f64 * 99.0);
    }
    text
}

#[test]
fn two_megabytes_of_points_are_worked_on_in_little_memory() {
    let Some(display) = display::open(1440, 900) else { return };
    let folder = tempfile::tempdir().expect("a folder");
    let mut empty = Program::start(&display, folder.path(), None);
    empty.wait_for("the first demo part", |entry| !entry.rows().is_empty());
    let usual = empty.most_memory();
    drop(empty);

    let file = folder.path().join("long.csv");
    let text = table(64_000);
    assert!(text.len() > 2_000_000, "{} bytes", text.len());
    std::fs::write(&file, text).expect("the table is written");
    let mut program = Program::start(&display, folder.path(), Some(&file));
    let opened = program.wait_for("the table", |entry| entry.rows().contains("63998"));
    assert!(opened.lines("handle").count() < 600, "a crowd of handles");
    program.type_into(&opened, "bend 2 straight", "250");
    program.wait_for("the typed straight", |entry| entry.line("undo") != Some("-"));
    let most = program.most_memory();
    let more = most.saturating_sub(usual) >> 20;
    assert!(more < 900, "{more} MiB more than the {} MiB of the window on a demo part", usual >> 20);
}
