//! The verdict: its sentence, and that a click goes to what is in the way.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench};
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Severity;
use elbowroom_panels::verdict::Model;
use elbowroom_workbench::Command;

#[test]
fn sound_tube_is_said_to_be_sound() {
    let bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0);
    let model = Model::of(&bench);
    assert_eq!((model.severity, model.leads_somewhere), (None, false));
    assert_eq!(model.to_string(), "[sound] Bends as drawn.");
}

#[test]
fn a_click_on_the_verdict_goes_to_the_first_thing_in_the_way() {
    let bench = workbench(&[(200.0, 0.0, 90.0), (20.0, 45.0, 30.0)], 250.0);
    let model = Model::of(&bench);
    assert_eq!(model.severity, Some(Severity::Stop));
    let mut desk = Desk::new(bench);
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    assert!(harness.query_by_label("verdict: stop").is_some(), "the mark is named");
    harness.get_by_label(&model.text).click();
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::GoToFinding(0)]);
}
