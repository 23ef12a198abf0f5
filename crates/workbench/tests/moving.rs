//! What is selected moves together, and the whole tube where nothing is; each as one step that can be taken back.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::{Motion, SystemEdit, specimen};
use elbowroom_geometry::{Angle, HandleId, Length, Point3, Vector3};
use elbowroom_workbench::{Command, SelectMode, Target, Workbench, vertices_under};

fn bench() -> Workbench {
    let rows = vec![specimen::row(200.0, 0.0, 90.0), specimen::row(250.0, 45.0, 30.0)];
    let mut bench = Workbench::new(specimen::part(rows, 250.0).unwrap(), specimen::shop());
    bench.perform(Command::ChangeForm);
    bench
}

const ENDS: [Target; 2] = [Target::Handle(HandleId::Start), Target::Handle(HandleId::Finish)];

fn places(bench: &Workbench) -> Vec<Point3<f64>> {
    let all = [ENDS[0], Target::Bend(0), Target::Bend(1), ENDS[1]];
    vertices_under(bench.part(), bench.solved(), &all).into_iter().map(|(_, at)| at).collect()
}

fn select(bench: &mut Workbench, targets: &[Target]) {
    let named = targets.iter().map(|target| bench.named(*target)).collect();
    bench.perform(Command::SelectThese(named, SelectMode::Only));
}

#[test]
fn selected_vertices_move_and_turn_together_and_the_others_stay() {
    let mut bench = bench();
    let before = places(&bench);
    select(&mut bench, &[Target::Bend(1), ENDS[1]]);
    let by = Vector3::new(10.0, -20.0, 30.0);
    bench.perform(Command::MoveSelection(Motion::By(by)));
    assert_eq!(bench.undo_label(), Some("move 2 vertices"));
    let after = places(&bench);
    assert_eq!(after[..2], before[..2]);
    assert!((2..4).all(|vertex| (after[vertex] - before[vertex] - by).norm() < 1e-9), "{after:?}");
    assert_eq!(bench.selection().targets().len(), 2, "they stay selected");
    let turn = Motion::Turned { about: after[2], axis: Vector3::z(), by: Angle::from_degrees(25.0) };
    bench.perform(Command::MoveSelection(turn));
    let turned = places(&bench);
    assert!((turned[2] - after[2]).norm() < 1e-9 && (turned[3] - after[3]).norm() > 10.0);
    assert!(((turned[3] - turned[2]).norm() - (after[3] - after[2]).norm()).abs() < 1e-9);
    bench.perform(Command::Undo);
    bench.perform(Command::Undo);
    assert_eq!(places(&bench), before, "to the bit");
}

#[test]
fn with_nothing_or_everything_selected_the_whole_tube_moves_and_bends_no_other_way() {
    for all in [false, true] {
        let mut bench = bench();
        if all {
            select(&mut bench, &[ENDS[0], Target::Bend(0), Target::Bend(1), ENDS[1]]);
        }
        let (before, blank_mm) = (places(&bench), bench.solved().blank_length_mm);
        bench.perform(Command::MoveSelection(Motion::By(Vector3::new(0.0, 0.0, 500.0))));
        assert_eq!(bench.undo_label(), Some("move the whole part"));
        assert!(places(&bench).iter().zip(&before).all(|(at, was)| (at - was - Vector3::z() * 500.0).norm() < 1e-9));
        let mirror = Motion::Mirrored { through: Point3::origin(), normal: Vector3::y() };
        bench.perform(Command::MoveSelection(mirror));
        assert_eq!(bench.undo_label(), Some("mirror the whole part"));
        assert!((bench.solved().blank_length_mm - blank_mm).abs() < 1e-6);
    }
}

#[test]
fn what_cannot_move_by_itself_says_so_and_stays() {
    let mut bench = bench();
    let before = places(&bench);
    select(&mut bench, &[Target::Bend(0)]);
    bench.perform(Command::MoveSelection(Motion::Mirrored { through: Point3::origin(), normal: Vector3::x() }));
    let said = bench.screen().message.as_ref().unwrap().text.clone();
    assert!(said.contains("Only the whole tube can be mirrored"), "{said}");
    assert_eq!(places(&bench), before);
    let half_turn = specimen::part(vec![specimen::row(200.0, 0.0, 180.0)], 200.0).unwrap();
    let mut bench = Workbench::new(half_turn, specimen::shop());
    select(&mut bench, &[Target::Bend(0)]);
    bench.perform(Command::MoveSelection(Motion::By(Vector3::x())));
    assert!(bench.screen().message.as_ref().unwrap().text.contains("half a turn"));
    assert_eq!(bench.undo_label(), None);
}

#[test]
fn several_are_selected_at_once_alone_or_beside_what_is() {
    let mut bench = bench();
    select(&mut bench, &[Target::Bend(0), Target::Bend(1)]);
    assert_eq!(bench.selection().targets(), [Target::Bend(0), Target::Bend(1)]);
    let more = vec![bench.named(Target::Bend(1)), bench.named(ENDS[1])];
    bench.perform(Command::SelectThese(more.clone(), SelectMode::Add));
    assert_eq!(bench.selection().targets(), [Target::Bend(0), Target::Bend(1), ENDS[1]]);
    bench.perform(Command::SelectThese(more, SelectMode::Only));
    assert_eq!(bench.selection().targets().len(), 2);
}

#[test]
fn the_floor_is_a_step_of_history_and_unsaved_work() {
    let mut bench = bench();
    bench.perform(Command::EditSystem(SystemEdit::SetFloor(Length::from_mm(-80.0))));
    assert_eq!((bench.undo_label(), bench.system().floor().mm()), (Some("lay the floor"), -80.0));
    bench.perform(Command::Undo);
    assert_eq!(bench.system().floor().mm(), 0.0);
    bench.perform(Command::Redo);
    bench.perform(Command::EditSystem(SystemEdit::SetFloor(Length::from_mm(-80.0))));
    assert_eq!(bench.redo_label(), None);
    bench.perform(Command::Undo);
    assert_eq!(bench.system().floor().mm(), 0.0, "laid where it lies it is no step");
}
