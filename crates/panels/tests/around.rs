//! What stands around: obstacles laid out by typed figures, and the room that is left.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::surrounding::ObstacleKind;
use elbowroom_bending::{MeshUnit, ObstacleEdit, Shape, SystemEdit, UpAxis};
use elbowroom_geometry::Length;
use elbowroom_panels::around::Model;
use elbowroom_workbench::{Command, Workbench};

fn bench() -> Workbench {
    let mut bench = workbench(&[(200.0, 0.0, 90.0)], 250.0);
    bench.perform(Command::ToggleAround);
    bench
}

fn opened(bench: Workbench) -> Harness<'static, Desk> {
    let mut desk = Desk::new(bench);
    desk.performs = true;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.run_steps(3);
    harness
}

fn press(harness: &mut Harness<'static, Desk>, label: &str) {
    // Its name stands in the list of rooms too, above.
    harness.get_all_by_label(label).last().unwrap_or_else(|| panic!("{label} is not there")).click();
    harness.run_steps(4);
}

fn type_into(harness: &mut Harness<'static, Desk>, field: &str, text: &str) {
    harness.get_by_label(field).click();
    harness.run_steps(2);
    harness.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    harness.get_by_label(field).type_text(text);
    harness.run_steps(2);
    harness.key_press(egui::Key::Enter);
    harness.run_steps(4);
}

fn said(harness: &Harness<'static, Desk>) -> String {
    Model::of(&harness.state().workbench).to_string()
}

#[test]
fn a_box_is_laid_and_moved_until_the_tube_hits_it() {
    let mut harness = opened(bench());
    press(&mut harness, "Add box");
    // Its top lies 300 mm below the tube, and its nearest edge a little aside of it.
    assert!(said(&harness).contains("Box: body\nto Box: 300.6 mm, wanted ~25.0 mm, kept\n"), "{}", said(&harness));
    assert!(harness.state().workbench.solved().findings.is_empty());
    press(&mut harness, "Box");
    type_into(&mut harness, "z of Box", "0");
    let text = said(&harness);
    assert!(text.contains("into it") && text.contains("missed"), "{text}");
    let findings = &harness.state().workbench.solved().findings;
    assert!(findings.iter().any(|finding| finding.fault == "hits"), "{findings:?}");
}

#[test]
fn kind_and_clearance_say_what_is_wanted() {
    let mut harness = opened(bench());
    press(&mut harness, "Add box");
    press(&mut harness, "Box");
    type_into(&mut harness, "Clearance of Box", "310");
    assert!(said(&harness).contains("wanted 310.0 mm, missed"), "{}", said(&harness));
    press(&mut harness, "As usual");
    assert!(said(&harness).contains("wanted ~25.0 mm, kept"), "{}", said(&harness));
    let id = harness.state().workbench.system().obstacles()[0].id;
    let wiring = SystemEdit::ChangeObstacle(id, ObstacleEdit::SetKind(ObstacleKind::Wiring));
    harness.state_mut().workbench.perform(Command::EditSystem(wiring));
    harness.run_steps(3);
    assert!(said(&harness).contains("Box: wiring or rubber\nto Box: 300.6 mm, wanted ~100.0 mm, kept\n"));
}

#[test]
fn sizes_names_and_locks_are_one_step_each() {
    let mut harness = opened(bench());
    press(&mut harness, "Add cylinder");
    press(&mut harness, "Cylinder");
    type_into(&mut harness, "Diameter of Cylinder", "80");
    let shape = |harness: &Harness<'static, Desk>| harness.state().workbench.system().obstacles()[0].shape.clone();
    let [diameter, length] = [80.0, 600.0].map(Length::from_mm);
    assert_eq!(shape(&harness), Shape::Cylinder { diameter, length });
    type_into(&mut harness, "Name of Cylinder", "Cross tube");
    press(&mut harness, "Locked");
    assert!(said(&harness).contains("Cross tube: body, locked"), "{}", said(&harness));
    type_into(&mut harness, "x of Cross tube", "900");
    assert!(said(&harness).contains("locked"), "it stays where it stands");
    let message = harness.state().workbench.screen().message.clone().unwrap().text;
    assert!(message.contains("Cross tube") && message.contains("locked"), "{message}");
    assert_eq!(harness.state().workbench.undo_label(), Some("lock obstacle \u{201c}Cross tube\u{201d}"));
}

#[test]
fn a_mesh_is_asked_for_with_its_unit_and_axis() {
    let mut harness = opened(bench());
    press(&mut harness, "m");
    press(&mut harness, "y");
    press(&mut harness, "Take in a mesh\u{2026}");
    let wanted = Command::AskObstacle(MeshUnit::Metre, UpAxis::Y);
    assert!(harness.state_mut().take_asked().contains(&wanted));
}
