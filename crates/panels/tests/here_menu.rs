//! The menu of what is selected: the same from a row and from the strip, about what was clicked.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench};
use egui_kittest::kittest::Queryable;
use elbowroom_panels::here_menu::Model;
use elbowroom_workbench::{Command, SelectMode, Target};

fn bench() -> elbowroom_workbench::Workbench {
    workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0)
}

#[test]
fn a_row_and_its_piece_of_the_strip_have_the_same_menu() {
    for place in ["bend 2", "Bend 2, 30.0° at CLR 76.2 mm"] {
        let mut harness = window(Desk::new(bench()), 1280.0, 800.0);
        harness.get_by_label(place).click_secondary();
        harness.run_steps(3);
        assert_eq!(harness.state().workbench.selection().targets(), [Target::Bend(1)], "{place}");
        harness.get_by_label_contains("Remove selected").click();
        harness.run_steps(3);
        assert_eq!(harness.state().workbench.solved().centreline.bends(), 1, "{place}");
        assert!(harness.query_by_label("Select all bends").is_none(), "it closes: {place}");
    }
}

#[test]
fn it_is_about_what_is_selected_and_leaves_out_what_needs_something() {
    let mut bench = bench();
    let nothing = Model::of(&bench);
    assert_eq!((nothing.about.as_str(), nothing.with_selected.len()), ("Test pipe", 0));
    assert!(nothing.with_tube.iter().any(|line| line.label == "Bend from the finish first"));
    bench.perform(Command::Select(bench.named(Target::Straight(0)), SelectMode::Only));
    assert_eq!(Model::of(&bench).about, "Straight 1");
    bench.perform(Command::SelectAll);
    let all = Model::of(&bench);
    assert_eq!(all.about, "2 selected");
    assert!(all.with_selected.iter().all(|line| line.enabled), "{all}");
}
