//! How long it takes to plan a part, to compare every tooling, and to say what the drawing would have to be.

use divan::{Bencher, black_box};
use elbowroom_bending::compare::compare;
use elbowroom_bending::plan::plan;
use elbowroom_bending::requirements::requirements;
use elbowroom_bending::seam::{SeamBend, SeamLay};
use elbowroom_bending::setup::Setup;
use elbowroom_bending::specimen::{bent, part, row, shop};
use elbowroom_bending::{End, Hand, Part, solve};
use elbowroom_geometry::Angle;

fn main() {
    divan::main();
}

/// Offsets, each in another plane, that never come near themselves.
fn system(bends: usize, straight_mm: f64) -> Part {
    let rows = (0..bends).map(|index| {
        let rotation = if index % 2 == 0 { 60.0 } else { 180.0 };
        row(if index == 0 { 200.0 } else { straight_mm }, rotation, 45.0)
    });
    part(rows.collect(), 300.0).expect("rows of plain numbers")
}

/// Program, seam and setup list, from the finish.
#[divan::bench(args = [12, 200, 1000])]
fn program(bencher: Bencher, bends: usize) {
    let (part, shop) = (bent(&system(bends, 160.0), End::Finish, Hand::Right), shop());
    bencher.bench(|| {
        let plan = plan(black_box(&part), black_box(&shop)).expect("every bend has a die");
        Setup::of(&plan, &shop)
    });
}

/// Two die sets with three clamps each, from either end: twelve ways.
#[divan::bench(args = [12, 66])]
fn every_tooling(bencher: Bencher, bends: usize) {
    let (part, shop) = (system(bends, 90.0), shop());
    bencher.bench(|| compare(black_box(&part), black_box(&shop)));
}

/// Clamps that reach over the arc before at every bend, so that every angle is looked for.
#[divan::bench(args = [12, 200])]
fn what_the_drawing_would_have_to_be(bencher: Bencher, bends: usize) {
    let (part, shop) = (system(bends, 90.0), shop());
    let solved = solve(&part, &shop);
    bencher.bench(|| requirements(black_box(&part), black_box(&shop), black_box(&solved)));
}

/// The best start of a seam along rotations that come back again and again.
#[divan::bench(args = [12, 200, 2000])]
fn seam_along_repeated_rotations(bencher: Bencher, bends: usize) {
    let turns = [90.0, 45.0, -30.0, 180.0, 15.0, -90.0, 120.0];
    let bends: Vec<SeamBend> = (0..bends)
        .map(|index| SeamBend { rotation: Angle::from_degrees(turns[index % turns.len()]), stretch: 1.0 / 3.0 })
        .collect();
    bencher.bench(|| SeamLay::best(black_box(&bends)));
}

/// The same where no two rotations are alike.
#[divan::bench(args = [12, 200, 2000])]
fn seam_along_odd_rotations(bencher: Bencher, bends: usize) {
    let odd = |index: usize, step: f64| (index as f64 * step).rem_euclid(1.0);
    let bends: Vec<SeamBend> = (0..bends)
        .map(|index| SeamBend {
            rotation: Angle::from_degrees(360.0 * odd(index, 0.618_033_988_75) - 180.0),
            stretch: 0.2 + 0.3 * odd(index, 0.754_877_666),
        })
        .collect();
    bencher.bench(|| SeamLay::best(black_box(&bends)));
}
