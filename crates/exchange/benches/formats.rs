//! How long solids, drawings and meshes take out and in.

use divan::{Bencher, black_box};
use elbowroom_bending::{Part, Path, System};
use elbowroom_exchange::{Document, dxf, mesh, points_table, step};
use elbowroom_workbench::file::demo_parts;

fn main() {
    divan::main();
}

/// A stair of so many bends.
fn stair(bends: usize) -> System {
    let mut text = String::from("x_mm,y_mm,z_mm,clr_mm\n");
    for n in 0..bends + 2 {
        let clr = if n == 0 || n == bends + 1 { "" } else { "90" };
        text += &format!("{},{},0,{clr}\n", n / 2 * 400, n.div_ceil(2) * 400);
    }
    let part = demo_parts().next().and_then(|demo| demo.read().ok()).expect("there are demo parts");
    let path = points_table::read(&text, "stair").expect("a stair is a table");
    System::of(Part { path: Path::Vertices(path), ..part })
}

#[divan::bench(args = [12, 1000])]
fn step_written(bencher: Bencher<'_, '_>, bends: usize) {
    let system = stair(bends);
    bencher.bench(|| step::write(black_box(&system), "a").map(|text| text.len()));
}

#[divan::bench(args = [12, 1000])]
fn step_read(bencher: Bencher<'_, '_>, bends: usize) {
    let text = step::write(&stair(bends), "a").expect("a stair is a solid");
    bencher.bench(|| step::read(black_box(text.as_bytes()), "a").map(|read| read.notes.len()));
}

#[divan::bench(args = [12, 1000])]
fn dxf_read(bencher: Bencher<'_, '_>, bends: usize) {
    let text = dxf::write(&Document::System(Box::new(stair(bends))), "a").expect("a stair can be drawn");
    bencher.bench(|| dxf::read(black_box(text.as_bytes()), "a").map(|read| read.notes.len()));
}

#[divan::bench(args = [12])]
fn stl_written(bencher: Bencher<'_, '_>, bends: usize) {
    let system = stair(bends);
    bencher.bench(|| mesh::write_stl(black_box(&system), "a").map(|bytes| bytes.len()));
}
