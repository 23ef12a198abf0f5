//! What measures in space: its text, its lists, what it asks for.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench};
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::SystemEdit;
use elbowroom_geometry::{HandleId, Length};
use elbowroom_panels::measuring::Model;
use elbowroom_workbench::{Command, Landmark, Measured, SelectMode, Target};

#[test]
fn the_figures_as_text() {
    // 50.8 tube, 200 along x, a right angle at CLR 76.2 to the left, 250 on: worked out by hand.
    let mut bench = workbench(&[(200.0, 0.0, 90.0)], 250.0);
    bench.perform(Command::EditSystem(SystemEdit::SetFloor(Length::from_mm(-100.0))));
    let said = Model::of(&bench).to_string();
    let (x, y) = (276.2f64, 326.2f64);
    let distance = format!("Distance: {:.1} mm", x.hypot(y));
    assert!(said.starts_with("from start to finish\n") && said.contains(&distance), "{said}");
    assert!(said.contains("Along x: 276.2 mm\n"), "{said}");
    // The outside reaches half a diameter beyond the middle lines.
    let outside = [x + 25.4, y + 25.4];
    for mm in outside {
        assert!(said.contains(&format!("{mm:.1}")), "{mm}: {said}");
    }
    assert!(said.contains("50.8 mm\n"), "{said}");
    assert!(said.contains("Lowest, from the floor: "), "{said}");
}

#[test]
fn another_landmark_is_chosen_from_the_list_and_the_two_change_places() {
    let mut bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0);
    bench.perform(Command::ToggleMeasuring);
    let mut desk = Desk::new(bench);
    desk.performs = true;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.run_steps(3);
    harness.get_by_label("Measure to: finish").click();
    harness.run_steps(3);
    harness.get_by_label("floor").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("Measure to: floor").is_some());
    harness.get_by_label("Other way round").click();
    harness.run_steps(3);
    let start = Landmark::Of(Target::Handle(HandleId::Start));
    let wanted = Command::Measure(Measured { from: Landmark::Floor, to: start });
    assert!(harness.state_mut().take_asked().contains(&wanted));
    assert!(harness.query_by_label("Measure from: floor").is_some());
}

#[test]
fn what_is_selected_is_taken_by_a_button() {
    let mut bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0);
    bench.perform(Command::ToggleMeasuring);
    let two = [Target::Bend(0), Target::Bend(1)].map(|target| bench.named(target));
    bench.perform(Command::SelectThese(two.to_vec(), SelectMode::Only));
    let mut desk = Desk::new(bench);
    desk.performs = true;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.run_steps(3);
    harness.get_by_label("Take what is selected").click();
    harness.run_steps(3);
    assert!(harness.query_by_label("Measure from: bend 1").is_some());
    assert!(harness.query_by_label("Measure to: bend 2").is_some());
}
