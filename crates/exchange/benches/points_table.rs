//! Points tables and reports of growing length: time per bend must not grow with the table.
#![allow(clippy::unwrap_used)]

use std::fmt::Write;

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, Path, Seam, ToolingChoice, Tube, solve};
use elbowroom_exchange::{points_table, report};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::built_in_shop;

const BENDS: [usize; 4] = [10, 100, 1_000, 10_000];

fn main() {
    divan::main();
}

/// A climbing zig-zag of right angles, with coordinates that take all their digits.
fn table(bends: usize) -> String {
    let mut text = format!("{}\n", points_table::HEADER);
    for n in 0..bends + 2 {
        let (x, y) = ((n / 2) as f64 * 400.0 / 3.0 * 3.1, n.div_ceil(2) as f64 * 400.0 / 3.0 * 2.9);
        let clr = if n == 0 || n == bends + 1 { "" } else { "90.5" };
        writeln!(text, "{x},{y},0.1,{clr}").unwrap();
    }
    text
}

fn part(bends: usize) -> Part {
    Part {
        name: "bench".into(),
        note: String::new(),
        tube: Tube::new(Length::from_mm(60.3), Length::from_mm(2.0), Tube::USUAL_MATERIAL, Seam::Welded).unwrap(),
        tooling: ToolingChoice::default(),
        path: Path::Vertices(points_table::read(&table(bends), "bench").unwrap()),
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    }
}

#[divan::bench(args = BENDS)]
fn read_table(bencher: Bencher, bends: usize) {
    let text = table(bends);
    bencher.counter(ItemsCount::new(bends)).bench(|| points_table::read(black_box(&text), "bench"));
}

#[divan::bench(args = BENDS)]
fn write_table(bencher: Bencher, bends: usize) {
    let path = points_table::read(&table(bends), "bench").unwrap();
    bencher.counter(ItemsCount::new(bends)).bench(|| points_table::write(black_box(&path)));
}

#[divan::bench(args = BENDS)]
fn read_solve_and_report(bencher: Bencher, bends: usize) {
    let (text, shop, mut part) = (table(bends), built_in_shop(), part(bends));
    bencher.counter(ItemsCount::new(bends)).bench_local(|| {
        part.path = Path::Vertices(points_table::read(black_box(&text), "bench").unwrap());
        report::to_json(&part, &shop, &solve(&part, &shop)).unwrap().len()
    });
}
