//! What the marks on the tube mean: told of what is marked, and of nothing else.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench};
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Severity;
use elbowroom_panels::marks_legend::Model;

#[test]
fn sound_tube_needs_no_legend() {
    let bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0);
    assert_eq!(Model::of(&bench), None);
}

#[test]
fn it_names_what_is_marked_and_says_what_marks_at_both_ends_mean() {
    let short = Model::of(&workbench(&[(200.0, 0.0, 90.0), (20.0, 45.0, 30.0)], 250.0)).unwrap();
    assert!(short.found.contains(&Severity::Stop) && !short.of_whole, "{short}");
    let long = Model::of(&workbench(&[(7000.0, 0.0, 90.0)], 250.0)).unwrap();
    assert_eq!(long.to_string(), "stop; at both ends: the whole tube");
}

#[test]
fn it_lies_in_the_scene_and_leaves_the_pointer_to_it() {
    let mut harness = window(Desk::new(workbench(&[(7000.0, 0.0, 90.0)], 250.0)), 1280.0, 800.0);
    let scene = harness.state().shown.as_ref().unwrap().scene;
    let place = harness.get_by_label("at both ends: the whole tube").rect();
    assert!(scene.contains_rect(place), "{place:?} in {scene:?}");
    harness.hover_at(place.center());
    harness.run_steps(2);
    assert!(harness.state().shown.as_ref().unwrap().scene_hovered, "a tube below it can be dragged");
}
