//! Moving, turning and mirroring by typed figures, and the floor.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::{Motion, SystemEdit};
use elbowroom_geometry::{Angle, Length, Vector3};
use elbowroom_workbench::{Command, SelectMode, Target};

fn opened(targets: &[Target]) -> Harness<'static, Desk> {
    let mut bench = workbench(&[(200.0, 0.0, 90.0), (150.0, 45.0, 30.0)], 250.0);
    let named = targets.iter().map(|target| bench.named(*target)).collect();
    bench.perform(Command::SelectThese(named, SelectMode::Only));
    bench.perform(Command::TogglePlacing);
    let mut desk = Desk::new(bench);
    desk.performs = false;
    let mut harness = window(desk, 1280.0, 800.0);
    harness.run_steps(2);
    harness.state_mut().take_asked();
    harness
}

fn type_into(harness: &mut Harness<'static, Desk>, field: &str, text: &str) {
    harness.get_by_label(field).click();
    harness.run_steps(2);
    harness.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    harness.get_by_label(field).type_text(text);
    harness.run_steps(2);
    harness.key_press(egui::Key::Enter);
    harness.run_steps(3);
}

fn press(harness: &mut Harness<'static, Desk>, button: &str) -> Vec<Command> {
    harness.get_by_label(button).click();
    harness.run_steps(3);
    harness.state_mut().take_asked()
}

#[test]
fn the_whole_tube_is_moved_and_turned_by_what_is_typed() {
    let mut harness = opened(&[]);
    assert!(harness.query_by_label("The whole tube moves.").is_some());
    type_into(&mut harness, "Move along x by", "12.5");
    type_into(&mut harness, "Move along z by", "-40");
    let asked = press(&mut harness, "Move by this");
    assert_eq!(asked, [Command::MoveSelection(Motion::By(Vector3::new(12.5, 0.0, -40.0)))]);
    type_into(&mut harness, "Angle to turn by", "90");
    let asked = press(&mut harness, "Turn");
    let [Command::MoveSelection(Motion::Turned { axis, by, .. })] = asked.as_slice() else { panic!("{asked:?}") };
    assert_eq!((*axis, *by), (Vector3::z(), Angle::from_degrees(90.0)));
}

#[test]
fn what_is_selected_moves_alone_and_is_not_mirrored() {
    let mut harness = opened(&[Target::Bend(0), Target::Bend(1)]);
    assert!(harness.query_by_label("The 2 selected vertices move together.").is_some());
    assert_eq!(press(&mut harness, "Mirror"), [], "it waits until nothing is selected");
    let asked = press(&mut harness, "Add a mirrored copy");
    assert!(matches!(asked.as_slice(), [Command::EditSystem(SystemEdit::MirrorTube(..))]), "{asked:?}");
}

#[test]
fn the_floor_is_laid_where_it_is_typed_or_below_the_lowest_tube() {
    let mut harness = opened(&[]);
    type_into(&mut harness, "Height of the floor", "-75");
    let asked = harness.state_mut().take_asked();
    assert_eq!(asked, [Command::EditSystem(SystemEdit::SetFloor(Length::from_mm(-75.0)))]);
    let asked = press(&mut harness, "Below the lowest");
    let [Command::EditSystem(SystemEdit::SetFloor(height))] = asked.as_slice() else { panic!("{asked:?}") };
    let (part, solved) = (harness.state().workbench.part().clone(), harness.state().workbench.solved().clone());
    let lowest_mm = solved.centreline.tube_bounding_box(part.tube.od.mm()).min.z;
    assert!((height.mm() - lowest_mm).abs() < 1e-9, "{height:?} {lowest_mm}");
}
