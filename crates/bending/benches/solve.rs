//! How long a part takes to solve and check: the twelve bends of a full system, and growth beyond.

use divan::{Bencher, black_box};
use elbowroom_bending::checks::{REGISTRY, Subject};
use elbowroom_bending::specimen::{change, part, row, shop};
use elbowroom_bending::{Part, Shop, Words, solve};
use elbowroom_geometry::Length;

fn main() {
    divan::main();
}

/// A system of offsets, each in another plane, that never comes near itself: every second bend turns back
/// into the direction of the first leg.
fn system(bends: usize, straight_mm: f64) -> Part {
    let rows = (0..bends).map(|index| {
        // Two square planes: the seam keeps 45° from the outside of every bend.
        let rotation = if index % 2 == 0 { 90.0 } else { 180.0 };
        row(if index == 0 { 200.0 } else { straight_mm }, rotation, 45.0)
    });
    part(rows.collect(), 300.0).expect("rows of plain numbers")
}

/// The specimen shop on a machine that takes any blank.
fn wide_shop() -> Shop {
    let mut shop = shop();
    change(&mut shop.machine, |machine| machine.longest_blank = Length::from_mm(1e7));
    shop
}

/// Solve and all checks, nothing to say.
#[divan::bench(args = [12, 200, 2000])]
fn sound(bencher: Bencher, bends: usize) {
    let (part, shop) = (system(bends, 160.0), wide_shop());
    assert_eq!(solve(&part, &shop).findings.len(), 0);
    bencher.bench(|| solve(black_box(&part), black_box(&shop)));
}

/// Solve and all checks, two findings at nearly every bend.
#[divan::bench(args = [12, 200, 2000])]
fn with_findings(bencher: Bencher, bends: usize) {
    let (part, shop) = (system(bends, 90.0), wide_shop());
    assert!(solve(&part, &shop).findings.len() >= 2 * (bends - 1));
    bencher.bench(|| solve(black_box(&part), black_box(&shop)));
}

/// The cures of two findings at nearly every bend, as they are worked out for those who read them.
#[divan::bench(args = [12, 200])]
fn cures(bencher: Bencher, bends: usize) {
    let (part, shop) = (system(bends, 90.0), wide_shop());
    let solved = solve(&part, &shop);
    let words = Words::new(&part, &shop, &solved);
    bencher.bench(|| solved.findings.iter().map(|finding| black_box(finding).cures(&words).len()).sum::<usize>());
}

/// Solve and all checks of a part approximated by tiny bends on tiny straights, more than a hundred of them
/// under each clamp.
#[divan::bench(args = [1000, 10000], sample_count = 5)]
fn tiny_bends(bencher: Bencher, bends: usize) {
    let rows = (0..bends).map(|_| row(1.0, 0.2, 0.1));
    let (part, shop) = (part(rows.collect(), 300.0).expect("rows of plain numbers"), wide_shop());
    bencher.bench(|| solve(black_box(&part), black_box(&shop)));
}

/// All checks on a sound part but the self-meeting one, without solving.
#[divan::bench(args = [12, 200, 2000])]
fn checks_but_self_meeting(bencher: Bencher, bends: usize) {
    checks(bencher, bends, |fault| fault != "tube-meets-itself");
}

/// The self-meeting check alone.
#[divan::bench(args = [12, 200, 2000])]
fn self_meeting(bencher: Bencher, bends: usize) {
    checks(bencher, bends, |fault| fault == "tube-meets-itself");
}

fn checks(bencher: Bencher, bends: usize, is_run: impl Fn(&str) -> bool + Sync) {
    let (part, shop) = (system(bends, 160.0), wide_shop());
    let solved = solve(&part, &shop);
    let subject = Subject { part: &part, shop: &shop, solved: &solved, around: &[] };
    bencher.bench(|| {
        let mut findings = Vec::new();
        for check in REGISTRY.iter().filter(|check| is_run(check.fault)) {
            (check.run)(black_box(&subject), &mut findings);
        }
        findings
    });
}

/// From vertices, as on every step of a drag.
#[divan::bench(args = [12])]
fn sound_from_vertices(bencher: Bencher, bends: usize) {
    let (mut part, shop) = (system(bends, 160.0), wide_shop());
    let vertices = part.path.bend_form().path.to_vertex_form().expect("no bend is near half a turn");
    part.path = elbowroom_bending::Path::Vertices(vertices);
    bencher.bench(|| solve(black_box(&part), black_box(&shop)));
}
