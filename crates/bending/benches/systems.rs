//! How long it takes to tell what is other in a system than it was: in proportion to its tubes.

use std::sync::Arc;

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use elbowroom_bending::specimen::{part, row};
use elbowroom_bending::{System, SystemEdit, SystemEvent, SystemTube, TubeId};
use elbowroom_geometry::units::LengthUnit;

fn main() {
    divan::main();
}

/// A system of so many tubes.
fn system(tubes: u32) -> System {
    let plain = part(vec![row(200.0, 0.0, 90.0)], 300.0).expect("rows of plain numbers");
    let tube = |number: u32| {
        let part = Arc::new(elbowroom_bending::Part { name: format!("tube {number}"), ..plain.clone() });
        SystemTube { id: TubeId::new(number), hidden: false, part }
    };
    System::new("many", LengthUnit::Millimetre, (1..=tubes).map(tube).collect(), TubeId::new(1)).expect("a system")
}

/// The last of the tubes is turned to.
#[divan::bench(args = [1, 10, 100, 1000])]
fn between(bencher: Bencher, tubes: u32) {
    let before = system(tubes);
    let after = SystemEdit::Activate(TubeId::new(tubes)).applied_to(&before).expect("there is such a tube");
    bencher.counter(ItemsCount::new(tubes)).bench(|| SystemEvent::between(black_box(&before), black_box(&after)));
}

/// As a file gives them.
#[divan::bench(args = [1, 10, 100, 1000])]
fn taken_in(bencher: Bencher, tubes: u32) {
    let system = system(tubes);
    bencher.counter(ItemsCount::new(tubes)).bench(|| {
        let tubes = black_box(&system).tubes().to_vec();
        System::new("many", LengthUnit::Millimetre, tubes, TubeId::new(1)).expect("a system")
    });
}
