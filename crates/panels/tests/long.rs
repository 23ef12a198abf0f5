//! A tube of very many bends, each with something in its way: what a panel draws is what can be seen of it.

use crate::one_panel::{parts, shown};
use elbowroom_bending::{Part, Path};
use elbowroom_geometry::{Angle, BendPath, BendRow, Length};
use elbowroom_workbench::Workbench;

/// A flat stair of so many bends of 90°, so many millimetres of straight between them.
fn stair(bends: usize, straight_mm: f64) -> Workbench {
    let there = parts::sound();
    let row = |bend: usize| BendRow {
        straight: Length::from_mm(straight_mm),
        rotation: Angle::from_degrees(if bend == 0 { 0.0 } else { 180.0 }),
        angle: Angle::from_degrees(90.0),
        clr: Length::from_mm(76.2),
    };
    let start = *there.solved().form.path.start();
    let path = BendPath::new(start, (0..bends).map(row).collect(), Length::from_mm(300.0)).unwrap();
    Workbench::new(Part { path: Path::Bends(path), ..Part::clone(there.part()) }, parts::shop())
}

/// Shapes, without those that another shape holds.
fn drawn(name: &'static str, workbench: Workbench) -> usize {
    let size = if name == "strip" { [1200.0, 190.0] } else { [400.0, 700.0] };
    shown(name, workbench, size).harness.output().shapes.len()
}

#[test]
fn ten_thousand_bends_are_drawn_with_no_more_than_a_few_thousand_shapes() {
    // Straights on which no clamp closes, and arcs that overlap.
    for straight_mm in [9.0, -5.0] {
        for name in ["strip", "rows", "findings", "why", "verdict", "bar"] {
            let shapes = drawn(name, stair(10_000, straight_mm));
            assert!((1..6000).contains(&shapes), "{name}, straights of {straight_mm}: {shapes}");
        }
    }
}

#[test]
fn the_clamps_of_a_few_bends_are_all_drawn() {
    let few = drawn("strip", stair(6, 9.0));
    let fewer = drawn("strip", stair(5, 9.0));
    assert!(few > fewer, "{few} {fewer}");
}
