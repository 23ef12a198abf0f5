//! The verdict: its sentence, and that a click goes to what is in the way.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::parts;
use crate::support::{Desk, window, workbench};
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Severity;
use elbowroom_panels::verdict::Model;
use elbowroom_workbench::{Command, Sheet};

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

#[test]
fn the_headline_follows_the_last_piece_on_the_sheets_of_the_machine() {
    let mut workbench = parts::sound();
    let mut points = {
        let plan = elbowroom_bending::plan::plan(workbench.part(), workbench.shop()).unwrap();
        plan.program.as_bent.to_vertex_form().unwrap().points().to_vec()
    };
    let measured = |points: &[elbowroom_geometry::Point3<f64>]| {
        Command::SetMeasurement(elbowroom_bending::measurement::Measurement::Points(points.to_vec()))
    };
    let drawn = Model::of(&workbench).text;
    workbench.perform(measured(&points));
    assert_eq!(Model::of(&workbench).text, drawn, "the drawing is what one is about on the sheet of bends");
    workbench.perform(Command::ShowSheet(Sheet::FirstOff));
    let within = Model::of(&workbench);
    assert!(within.text.starts_with("Piece 1 is within tolerance") && within.severity.is_none(), "{within}");
    points[2].y += 4.0;
    let last = points.len() - 1;
    points[last].z += 6.0;
    workbench.perform(measured(&points));
    let out = Model::of(&workbench);
    assert!(out.text.starts_with("Piece 1 is out: up to ") && out.severity.is_some(), "{out}");
    workbench.perform(Command::ShowSheet(Sheet::Program));
    assert_eq!(Model::of(&workbench), out);
}
