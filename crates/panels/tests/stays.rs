//! What stays: holding by ticks and keys, the side of a typed row, and how it is said.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench};
use egui_kittest::kittest::Queryable;
use elbowroom_bending::{Edit, End, Hold};
use elbowroom_geometry::{Centreline, HandleId, Length};
use elbowroom_panels::rows::Model;
use elbowroom_workbench::catalogue::verb;
use elbowroom_workbench::{Command, SelectMode, Table, Target, Workbench};

/// Legs along x, y, x and up.
const PIPE: [(f64, f64, f64); 3] = [(250.0, 0.0, 90.0), (300.0, 180.0, 90.0), (280.0, 90.0, 90.0)];

fn table(bench: Workbench) -> egui_kittest::Harness<'static, Desk> {
    let mut desk = Desk::new(bench);
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.state_mut().asked.clear();
    harness
}

fn ask(bench: &mut Workbench, id: &str) {
    let command = verb(id).unwrap().command(bench);
    bench.perform(command);
}

#[test]
fn the_side_that_stays_is_chosen_beside_the_table() {
    let mut harness = table(workbench(&PIPE, 260.0));
    harness.get_by_label("Hold\u{2026}").click();
    harness.run();
    harness.get_by_label("finish side").click();
    harness.run();
    assert_eq!(harness.state().asked.last(), Some(&Command::Edit(Edit::KeepSide(End::Finish))));
}

#[test]
fn ends_are_held_by_ticks() {
    let bench = workbench(&PIPE, 260.0);
    let finish = bench.solved().nodes.finish();
    let mut harness = table(bench);
    harness.get_by_label("Hold\u{2026}").click();
    harness.run();
    harness.get_by_label("direction of finish").click();
    harness.run();
    assert_eq!(harness.state().asked.last(), Some(&Command::Edit(Edit::Hold(finish, Hold::DIRECTION))));
    harness.get_by_label("Hold both ends").click();
    harness.run();
    let Some(Command::Edit(Edit::Together(_, edits))) = harness.state().asked.last() else { panic!() };
    assert_eq!(edits.len(), 2);
}

#[test]
fn keys_hold_and_free_what_is_selected() {
    let mut bench = workbench(&PIPE, 260.0);
    assert!(!verb("hold").unwrap().enabled(&bench), "nothing is selected");
    let (bend, start) = (bench.solved().nodes.bend(1), bench.solved().nodes.start());
    bench.perform(Command::Select(Target::Bend(bend), SelectMode::Only));
    bench.perform(Command::Select(Target::Handle(HandleId::Start), SelectMode::Toggle));
    ask(&mut bench, "hold");
    assert_eq!((bench.part().keep.of(bend), bench.part().keep.of(start)), (Hold::PLACE, Hold::PLACE));
    assert_eq!(bench.undo_label(), Some("hold 2 places"));
    ask(&mut bench, "hold-direction");
    assert_eq!(bench.part().keep.of(bend), Hold::BOTH);
    ask(&mut bench, "hold");
    assert_eq!(bench.part().keep.of(bend), Hold::DIRECTION, "the direction stays held");
    ask(&mut bench, "free-all");
    assert!(bench.part().keep.held().is_empty() && !verb("free-all").unwrap().enabled(&bench));
    bench.perform(Command::Undo);
    assert_eq!(bench.part().keep.held().len(), 2);
}

#[test]
fn what_is_held_is_said_in_both_tables() {
    let mut bench = workbench(&PIPE, 260.0);
    ask(&mut bench, "hold-ends");
    let bend = bench.solved().nodes.bend(1);
    bench.perform(Command::Edit(Edit::Hold(bend, Hold::PLACE)));
    let rows = Model::of(&bench).to_string();
    assert!(rows.lines().nth(2).unwrap().contains("(held)"), "{rows}");
    bench.perform(Command::ShowTable(Table::Points));
    let points = Model::of(&bench).to_string();
    assert_eq!(points.matches("(held with its direction)").count(), 2, "{points}");
    let mut harness = table(bench);
    harness.run();
    harness.get_by_label_contains("start, held with its direction");
    harness.get_by_label("Held: 3");
}

#[test]
fn a_step_says_what_gave_way_and_the_next_one_puts_it_away() {
    let mut bench = workbench(&PIPE, 260.0);
    ask(&mut bench, "hold-ends");
    let end = Centreline::of(&bench.solved().form.path).end().origin;
    let straight = bench.solved().nodes.straight(0);
    let longer = |mm: f64| Edit::SetStraight(straight, Length::from_mm(mm));
    bench.perform(Command::Edit(longer(270.0)));
    let said = |bench: &Workbench| bench.screen().message.as_ref().map(|message| message.text.clone());
    let wanted = "Straight 3 is 260.0 mm now (280.0 mm before), so that the start and the finish stay.";
    assert_eq!(said(&bench).as_deref(), Some(wanted));
    assert!((Centreline::of(&bench.solved().form.path).end().origin - end).norm() < 1e-6);
    bench.perform(Command::Edit(Edit::Rename("Other".into())));
    assert_eq!(said(&bench), None);
    // A drag shows it first, and says it when it is let go.
    bench.perform(Command::Preview(longer(280.0)));
    assert_eq!(said(&bench), None);
    bench.perform(Command::CommitPreview);
    assert!(said(&bench).unwrap().starts_with("Straight 3 is 250.0 mm now (260.0 mm before)"));
    // What cannot be is refused, and why.
    bench.perform(Command::Edit(longer(900.0)));
    assert!(said(&bench).unwrap().contains("which is held"), "{:?}", said(&bench));
}
