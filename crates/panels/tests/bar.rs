//! The bar and the keyboard: what they offer, and what they ask for.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use crate::support::{Desk, window, workbench};
use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Edit;
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_panels::bar::Model;
use elbowroom_workbench::{Command, SelectMode, Target, ViewCommand};

fn desk() -> Desk {
    let mut desk = Desk::new(workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0));
    desk.performs = false;
    desk
}

#[test]
fn undo_says_what_it_would_take_back() {
    let mut bench = workbench(&[(200.0, 0.0, 90.0)], 250.0);
    assert!(Model::of(&bench).to_string().contains("(Undo), (Redo)"));
    bench.perform(Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(1), Angle::from_degrees(45.0))));
    let model = Model::of(&bench);
    assert!(model.undo.enabled && !model.redo.enabled);
    assert!(model.undo.label.starts_with("Undo: ") && model.undo.label.contains("bend 1"), "{}", model.undo.label);
    assert!(model.to_string().contains("Test pipe, not saved, lengths in millimetres"));
}

#[test]
fn menus_ask_for_what_they_say() {
    let mut harness = window(desk(), 1280.0, 800.0);
    harness.get_by_label("File").click();
    harness.run_steps(3);
    harness.get_by_label_contains("Open…").click();
    harness.run_steps(2);
    assert!(harness.state_mut().take_asked().contains(&Command::AskOpen));
    harness.get_by_label("Lengths: mm").click();
    harness.run_steps(3);
    harness.get_by_label("inches").click();
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(asked.contains(&Command::Edit(Edit::ShowUnits(LengthUnit::Inch))), "{asked:?}");
}

#[test]
fn demo_parts_are_two_clicks_away() {
    let mut harness = window(desk(), 1280.0, 800.0);
    harness.get_by_label("File").click();
    harness.run_steps(3);
    harness.get_by_label_contains("Demo parts").click();
    harness.run_steps(4);
    let part = elbowroom_workbench::file::demo_parts().next().unwrap();
    let words = part.name.replace('-', " ");
    harness.get_by_label(&format!("{}{}", words[..1].to_uppercase(), &words[1..])).click();
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(asked.contains(&Command::OpenDemo(part.name.to_owned())), "{asked:?}");
}

#[test]
fn keys_call_verbs() {
    let mut harness = window(desk(), 1280.0, 800.0);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.key_press(Key::F);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert_eq!(asked, [Command::Save, Command::View(ViewCommand::FrameAll)]);
}

#[test]
fn a_text_field_keeps_its_own_keys() {
    let mut desk = desk();
    desk.workbench.perform(Command::Edit(Edit::SetAngle(elbowroom_bending::NodeId::new(1), Angle::from_degrees(45.0))));
    desk.workbench.perform(Command::Select(desk.workbench.named(Target::Bend(1)), SelectMode::Only));
    let mut harness = window(desk, 1280.0, 800.0);
    harness.get_by_label("bend 2 CLR").focus();
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    for (modifiers, key) in [(Modifiers::COMMAND, Key::Z), (Modifiers::NONE, Key::Delete), (Modifiers::NONE, Key::B)] {
        harness.key_press_modifiers(modifiers, key);
        harness.run_steps(2);
    }
    let asked = harness.state_mut().take_asked();
    let kept = |command: &Command| !matches!(command, Command::Undo | Command::DeleteSelection | Command::ToggleBench);
    assert!(asked.iter().all(kept), "{asked:?}");
    // Saving is no business of the field.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run_steps(2);
    assert!(harness.state_mut().take_asked().contains(&Command::Save));
    assert!(harness.state().shown.as_ref().unwrap().text_focused);
}

#[test]
fn escape_in_a_cell_does_not_reach_the_rest() {
    let mut harness = window(desk(), 1280.0, 800.0);
    support::type_into(&mut harness, "bend 2 CLR", "80");
    harness.state_mut().asked.clear();
    harness.key_press(Key::Escape);
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::DropPreview]);
    harness.key_press(Key::Escape);
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::Escape]);
}

#[test]
fn the_scene_has_the_middle_and_the_pointer_there() {
    let mut harness = window(desk(), 1280.0, 800.0);
    let scene = harness.state().shown.as_ref().unwrap().scene;
    assert!(scene.width() > 600.0 && scene.height() > 400.0, "{scene:?}");
    harness.hover_at(scene.center());
    harness.run_steps(2);
    assert!(harness.state().shown.as_ref().unwrap().scene_hovered);
    harness.hover_at(scene.right_center() + egui::vec2(60.0, 0.0));
    harness.run_steps(2);
    assert!(!harness.state().shown.as_ref().unwrap().scene_hovered);
}
