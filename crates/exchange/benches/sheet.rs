//! Making a sheet, of growing numbers of bends: laying it out, and writing it.
#![allow(clippy::unwrap_used)]

use divan::{Bencher, black_box};
use elbowroom_bending::Part;
use elbowroom_bending::specimen::{part, row};
use elbowroom_exchange::sheet::{Sheet, SheetOptions};
use elbowroom_workbench::file::built_in_shop;

const BENDS: [usize; 4] = [1, 4, 12, 30];

fn main() {
    divan::main();
}

fn winding(bends: usize) -> Part {
    let rows = (0..bends).map(|bend| row(200.0 + 20.0 * (bend % 4) as f64, 47.0 * (bend % 7) as f64, 60.0));
    part(rows.collect(), 240.0).unwrap()
}

#[divan::bench(args = BENDS)]
fn lay_out(bencher: Bencher, bends: usize) {
    let (part, shop) = (winding(bends), built_in_shop());
    bencher
        .bench(|| Sheet::of("bench", black_box(std::slice::from_ref(&part)), &shop, "bench", &SheetOptions::default()));
}

#[divan::bench(args = BENDS)]
fn write_pdf(bencher: Bencher, bends: usize) {
    let shop = built_in_shop();
    let sheet = Sheet::of("bench", &[winding(bends)], &shop, "bench", &SheetOptions::default()).unwrap();
    bencher.bench(|| black_box(&sheet).pdf());
}
