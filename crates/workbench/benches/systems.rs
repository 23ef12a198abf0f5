//! How long an edit of one tube takes in a system of many: only that tube is solved again.

use divan::{Bencher, black_box};
use elbowroom_bending::specimen::{part, row, shop};
use elbowroom_bending::{Edit, System, SystemEdit};
use elbowroom_geometry::Angle;
use elbowroom_workbench::{Command, Workbench};

fn main() {
    divan::main();
}

/// A system of so many tubes of twelve bends each, none of which meets itself.
fn system(tubes: usize) -> Workbench {
    let rows = (0..12).map(|index| {
        let rotation = if index % 2 == 0 { 90.0 } else { 180.0 };
        row(if index == 0 { 200.0 } else { 160.0 }, rotation, 45.0)
    });
    let part = part(rows.collect(), 300.0).expect("rows of plain numbers");
    let mut workbench = Workbench::with_system(System::of(part).into(), shop());
    for _ in 1..tubes {
        let last = workbench.system().active();
        workbench.perform(Command::EditSystem(SystemEdit::DuplicateTube(last)));
    }
    assert_eq!(workbench.system().tubes().len(), tubes);
    workbench
}

/// One edit of one tube, as one step of history.
#[divan::bench(args = [1, 5, 20, 200])]
fn edit_one_tube(bencher: Bencher, tubes: usize) {
    let mut workbench = system(tubes);
    let bend = workbench.solved().nodes.bend(5);
    let mut degrees = 45.0;
    bencher.bench_local(|| {
        degrees = if degrees == 45.0 { 50.0 } else { 45.0 };
        let solved = workbench.solves();
        workbench.perform(black_box(Command::Edit(Edit::SetAngle(bend, Angle::from_degrees(degrees)))));
        assert_eq!(workbench.solves(), solved + 1, "one tube is solved");
    });
}

/// One move of a drag, which is shown and makes no step yet.
#[divan::bench(args = [1, 5, 20, 200, 1000])]
fn preview_one_tube(bencher: Bencher, tubes: usize) {
    let mut workbench = system(tubes);
    let bend = workbench.solved().nodes.bend(5);
    let mut degrees = 45.0;
    bencher.bench_local(|| {
        degrees = if degrees > 50.0 { 45.0 } else { degrees + 0.1 };
        workbench.perform(black_box(Command::Preview(Edit::SetAngle(bend, Angle::from_degrees(degrees)))));
    });
}
