//! Measuring in space: between what, and what comes out.
#![allow(clippy::unwrap_used)]

use elbowroom_bending::specimen::{part, row, shop};
use elbowroom_bending::{Edit, SystemEdit};
use elbowroom_geometry::{HandleId, Length};
use elbowroom_workbench::{Command, Landmark, Measured, SelectMode, Target, Workbench};

/// 300 along x, a right angle at CLR 76.2, then 200 on.
fn bench() -> Workbench {
    Workbench::new(part(vec![row(300.0, 0.0, 90.0)], 200.0).unwrap(), shop())
}

fn landmark(bench: &Workbench, name: &str) -> Landmark {
    let list = bench.landmarks();
    let found = list.iter().find(|named| named.name == name);
    found.unwrap_or_else(|| unreachable!("{name} is not among {list:?}")).landmark
}

fn distance_mm(bench: &mut Workbench, from: &str, to: &str) -> f64 {
    let (from, to) = (landmark(bench, from), landmark(bench, to));
    bench.perform(Command::Measure(Measured { from, to }));
    bench.between_measured().unwrap().distance_mm()
}

#[test]
fn distances_that_can_be_worked_out_by_hand() {
    let mut bench = bench();
    // From end to end until something else is chosen: both legs of the right angle are leg and tangent.
    let legs_mm: [f64; 2] = [376.2, 276.2];
    assert!((bench.between_measured().unwrap().distance_mm() - legs_mm[0].hypot(legs_mm[1])).abs() < 1e-9);
    let cases = [
        ("start", "bend 1", legs_mm[0]),
        ("bend 1", "finish", legs_mm[1]),
        ("finish", "middle line of straight 1", legs_mm[1]),
        ("middle line of straight 1", "middle line of straight 2", 0.0),
        ("start", "x, y, z = 0", 0.0),
        ("bend 1", "y axis", legs_mm[0]),
        ("start", "floor", 0.0),
    ];
    for (from, to, wanted_mm) in cases {
        assert!((distance_mm(&mut bench, from, to) - wanted_mm).abs() < 1e-9, "{from} to {to}");
        assert!((distance_mm(&mut bench, to, from) - wanted_mm).abs() < 1e-9, "{to} to {from}");
    }
    bench.perform(Command::EditSystem(SystemEdit::SetFloor(Length::from_mm(-150.0))));
    assert!((distance_mm(&mut bench, "bend 1", "floor") - 150.0).abs() < 1e-9);
    let middle_lines = Measured {
        from: landmark(&bench, "middle line of straight 1"),
        to: landmark(&bench, "middle line of straight 2"),
    };
    bench.perform(Command::Measure(middle_lines));
    assert!((bench.between_measured().unwrap().angle.unwrap().degrees() - 90.0).abs() < 1e-9);
}

#[test]
fn what_is_selected_is_measured_when_it_opens() {
    let mut bench = bench();
    let (bend, end) = (bench.named(Target::Bend(0)), bench.named(Target::Handle(HandleId::Finish)));
    bench.perform(Command::SelectThese(vec![bend, end], SelectMode::Only));
    bench.perform(Command::ToggleMeasuring);
    assert_eq!(bench.measured(), Measured { from: Landmark::Of(bend), to: Landmark::Of(end) });
    assert!((bench.between_measured().unwrap().distance_mm() - 276.2).abs() < 1e-9);
    // Of one alone its height over the floor; closed by Escape, which leaves the selection.
    bench.perform(Command::Select(bend, SelectMode::Only));
    bench.perform(Command::MeasureSelected);
    assert_eq!(bench.measured().to, Landmark::Floor);
    bench.perform(Command::Escape);
    assert!(!bench.screen().measuring_open && !bench.selection().targets().is_empty());
}

#[test]
fn a_landmark_stays_itself_through_an_edit_and_is_gone_with_what_it_names() {
    let mut bench = bench();
    assert!((distance_mm(&mut bench, "start", "bend 1") - 376.2).abs() < 1e-9);
    let first = bench.solved().nodes.straight(0);
    bench.perform(Command::Edit(Edit::InsertRows(first, vec![row(100.0, 0.0, 45.0)])));
    let between = bench.between_measured().unwrap().distance_mm();
    let (from, to) = (bench.measured().from, bench.measured().to);
    assert_eq!((from, to), (landmark(&bench, "start"), landmark(&bench, "bend 2")), "what was bend 1 is bend 2 now");
    assert!(between > 376.2);
    let bend = bench.solved().nodes.bend(1);
    bench.perform(Command::Edit(Edit::RemoveBends(vec![bend])));
    assert_eq!(bench.between_measured(), None);
    bench.perform(Command::New);
    bench.perform(Command::AnswerDiscard);
    assert_eq!(bench.measured(), Measured::default());
}

#[test]
fn ends_of_other_tubes_can_be_measured_to() {
    let mut bench = bench();
    let first = bench.system().active();
    bench.perform(Command::AddTube);
    let name = bench.system().tube(first).unwrap().name().to_owned();
    let start = landmark(&bench, &format!("{name}: start"));
    assert!(matches!(start, Landmark::End(tube, _) if tube == first));
    assert!(distance_mm(&mut bench, "start", &format!("{name}: finish")) > 0.0);
}
