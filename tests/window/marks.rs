//! The marks on the tube as they are seen from where a whole pipe is looked at, in grey as well.

use std::time::{Duration, Instant};

use crate::account::Entry;
use crate::display::{self, Picture};
use crate::drag::demo;
use crate::program::Program;

/// The middle of the first mark of a severity whose line says so much, logical pixels.
fn mark_place(entry: &Entry, begins: &str) -> (i32, i32) {
    let place = entry.lines("mark").filter(|mark| mark.starts_with(begins)).find_map(|mark| {
        let (x, y) = mark.split_once(" at ")?.1.split_once(' ')?;
        Some((x.parse::<f64>().ok()?.round() as i32, y.parse::<f64>().ok()?.round() as i32))
    });
    place.unwrap_or_else(|| panic!("no mark {begins} is in sight:\n{}", entry.text))
}

/// A pipe of nearly five metres, ten pixels thick, whose blank is too long for the machine and whose clamp is not.
#[test]
fn from_far_away_stripes_are_seen_in_grey_and_a_blank_too_long_hides_nothing() {
    let Some(display) = display::open(1280, 800) else { return };
    for theme in ["light", "dark"] {
        let folder = tempfile::tempdir().expect("a folder");
        let file = demo("over-the-wheel.ron", folder.path());
        let mut program = Program::start(&display, folder.path(), Some(&file));
        let mut shown = program.wait_for("its marks", |entry| entry.lines("mark").count() > 3);
        if theme == "dark" {
            display.keys("ctrl+k");
            program.wait_for("the command list", |entry| !entry.panel("command list").is_empty());
            display.text("dark");
            display.keys("Return");
            shown = program.wait_for("the list to close", |entry| entry.panel("command list").is_empty());
        }
        let caution = mark_place(&shown, "caution");
        // What lies under the pointer would be lit up.
        display.point((300, 120));
        let stripes = |picture: &Picture| {
            let grey = picture.grey_near(caution, 8);
            let dark = grey.iter().filter(|share| **share < 0.08).count();
            let bright = grey.iter().filter(|share| **share > 0.25).count();
            (dark, bright)
        };
        let start = Instant::now();
        loop {
            let (dark, bright) = stripes(&display.picture(folder.path()));
            if dark >= 15 && bright >= 15 {
                break;
            }
            let waited = start.elapsed() > Duration::from_secs(30);
            assert!(!waited, "{theme}: {dark} dark and {bright} bright pixels at {caution:?}\n{}", shown.text);
        }
        // The long straight is sound: nothing says so but plain metal.
        let handle = |name: &str| shown.place("handle", name).expect("a handle");
        let (first, second) = (handle("Handle(Start)"), handle("Handle(Vertex(0))"));
        let middle = ((first.0 + second.0) / 2, (first.1 + second.1) / 2);
        assert_eq!(display.picture(folder.path()).vermillion_near(middle, 20), 0, "{theme}");
    }
}
