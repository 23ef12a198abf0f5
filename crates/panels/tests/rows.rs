//! The table of bends: what it says, and what typing, walking and pasting ask for.
#![allow(clippy::unwrap_used, clippy::panic)]

mod support;

use egui::Key;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Edit;
use elbowroom_geometry::{Angle, Length};
use elbowroom_panels::rows::Model;
use elbowroom_workbench::{Command, SelectMode, Target};
use support::{Desk, type_into, window, workbench};

const ROWS: [(f64, f64, f64); 3] = [(200.0, 0.0, 90.0), (150.0, 45.0, 30.0), (125.0, -90.0, 180.0)];

/// A window in which commands are kept but not performed, so that each test sees its own.
fn table() -> egui_kittest::Harness<'static, Desk> {
    let mut desk = Desk::new(workbench(&ROWS, 250.0));
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.state_mut().asked.clear();
    harness
}

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

#[test]
fn the_table_says_the_bends_in_trade_order() {
    let mut bench = workbench(&ROWS, 250.0);
    bench.perform(Command::Select(Target::Bend(1), SelectMode::Only));
    bench.perform(Command::Select(Target::Straight(3), SelectMode::Toggle));
    bench.perform(Command::Hover(Some(Target::Straight(2))));
    let text = Model::of(&bench).to_string();
    let plain: Vec<&str> = text.lines().map(|line| line.split("  [").next().unwrap_or(line)).collect();
    let expected = [
        "   bend  straight  rotation  angle  CLR  (mm)",
        "   1  200.0  –  90.0  76.2",
        " * 2  150.0  45.0  30.0  76.2",
        ">  3  125.0  -90.0  180.0  76.2",
        "   tail  250.0*",
    ];
    assert_eq!(plain, expected);
}

#[test]
fn typing_previews_and_enter_makes_one_step() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 straight", "60+12.5");
    let edit = Edit::SetStraight(1, mm(72.5));
    let select = Command::Select(Target::Straight(1), SelectMode::Only);
    assert_eq!(harness.state_mut().take_asked(), [select, Command::Preview(edit.clone())]);
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert_eq!(asked[..2], [Command::DropPreview, Command::Edit(edit)]);
    assert!(harness.get_by_label("bend 3 straight").is_focused(), "Enter goes down");
}

#[test]
fn tab_goes_on_and_takes_the_text() {
    let mut harness = table();
    type_into(&mut harness, "bend 1 straight", "1 3/4 in");
    harness.key_press(Key::Tab);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(asked.contains(&Command::Edit(Edit::SetStraight(0, mm(1.75 * 25.4)))), "{asked:?}");
    assert!(harness.get_by_label("bend 1 angle").is_focused(), "the first bend has no rotation to stop at");
}

#[test]
fn clicking_elsewhere_takes_the_text() {
    let mut harness = table();
    type_into(&mut harness, "bend 3 angle", "170");
    harness.get_by_label("bend 1 CLR").click();
    harness.run_steps(3);
    let asked = harness.state_mut().take_asked();
    assert!(asked.contains(&Command::Edit(Edit::SetAngle(2, Angle::from_degrees(170.0)))), "{asked:?}");
}

#[test]
fn escape_drops_what_was_typed() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 rotation", "10");
    harness.state_mut().asked.clear();
    harness.key_press(Key::Escape);
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::DropPreview]);
    assert_eq!(harness.get_by_label("bend 2 rotation").value().as_deref(), Some("45.0"));
}

#[test]
fn leaving_a_cell_untouched_asks_for_nothing() {
    let mut harness = table();
    harness.get_by_label("bend 2 angle").focus();
    harness.run_steps(2);
    harness.state_mut().asked.clear();
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    let asked = harness.state_mut().take_asked();
    assert!(asked.iter().all(|command| matches!(command, Command::Select(..))), "{asked:?}");
}

#[test]
fn what_cannot_be_read_stays_with_its_error() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 straight", "60+furlong");
    assert!(harness.state_mut().take_asked().contains(&Command::DropPreview));
    harness.key_press(Key::Enter);
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [], "nothing is taken");
    let cell = harness.get_by_label("bend 2 straight");
    assert!(cell.is_focused(), "and the cell is not left");
    assert_eq!(cell.value().as_deref(), Some("60+furlong"), "nothing is lost");
    assert!(harness.query_by_label_contains("no unit of length").is_some(), "the error says what is wrong");
}

#[test]
fn what_the_part_refuses_says_why() {
    let mut harness = table();
    type_into(&mut harness, "bend 2 angle", "400");
    assert!(harness.query_by_label_contains("359°").is_some(), "says what it may be");
    assert_eq!(harness.get_by_label("bend 2 angle").value().as_deref(), Some("400"));
}

#[test]
fn a_click_selects_a_row_and_shift_adds() {
    let mut harness = table();
    harness.get_by_label("bend 2, caution").click();
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::Select(Target::Bend(1), SelectMode::Only)]);
    harness.get_by_label("bend 3, stop").click_modifiers(egui::Modifiers::SHIFT);
    harness.run_steps(2);
    assert_eq!(harness.state_mut().take_asked(), [Command::Select(Target::Bend(2), SelectMode::Toggle)]);
}
