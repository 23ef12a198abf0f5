//! How long it takes to take in a million triangles, and to measure a tube against them, beside a library of general use.
#![allow(clippy::unwrap_used)]

use std::sync::{Arc, OnceLock};

use divan::{Bencher, black_box};
use elbowroom_geometry::{
    Angle, BendPath, BendRow, Body, Centreline, Frame, Length, Nearness, Point3, TriangleMesh, VertexPath,
};
use parry3d_f64::math::{Pose, Vector};
use parry3d_f64::query::distance;
use parry3d_f64::shape::{Segment, TriMesh};

fn main() {
    let mesh = mesh();
    println!("{} triangles take {} bytes each", mesh.triangles().len(), mesh.bytes() / mesh.triangles().len());
    divan::main();
}

/// A bumpy field of 1,000,000 triangles, 4 m square, beneath a tube of twelve bends.
fn field() -> (Vec<Point3<f64>>, Vec<[u32; 3]>) {
    const SIDE: u32 = 708;
    let step = 4000.0 / f64::from(SIDE - 1);
    let height = |x: f64, y: f64| 30.0 * (x / 90.0).sin() * (y / 70.0).cos() + 4.0 * (x * 0.9 + y * 1.7).sin() - 120.0;
    let point = |index: u32| {
        let (x, y) = (f64::from(index % SIDE) * step - 2000.0, f64::from(index / SIDE) * step - 2000.0);
        Point3::new(x, y, height(x, y))
    };
    let cell = |index: u32| {
        let a = index / (SIDE - 1) * SIDE + index % (SIDE - 1);
        let [b, c, d] = [a + 1, a + 1 + SIDE, a + SIDE];
        [[a, b, c], [a, c, d]]
    };
    let cells = (SIDE - 1) * (SIDE - 1);
    ((0..SIDE * SIDE).map(point).collect(), (0..cells).flat_map(cell).take(1_000_000).collect())
}

fn mesh() -> &'static Arc<TriangleMesh> {
    static MESH: OnceLock<Arc<TriangleMesh>> = OnceLock::new();
    MESH.get_or_init(|| {
        let (points, triangles) = field();
        Arc::new(TriangleMesh::new(points, triangles).unwrap())
    })
}

fn reference() -> &'static TriMesh {
    static MESH: OnceLock<TriMesh> = OnceLock::new();
    MESH.get_or_init(|| {
        let (points, triangles) = field();
        TriMesh::new(points.iter().map(|point| Vector::new(point.x, point.y, point.z)).collect(), triangles).unwrap()
    })
}

/// Twelve bends over the field.
fn path() -> BendPath {
    let angles = [45.0, 30.0, 60.0, 22.5, 60.0, 15.0, 40.0, 35.0, 50.0, 25.0, 20.0, 40.0];
    let row = |i: usize| BendRow {
        straight: Length::from_mm(120.0 + 20.0 * (i % 4) as f64),
        rotation: Angle::from_degrees(if i == 0 { 0.0 } else { 178.0 - 3.0 * (i % 3) as f64 }),
        angle: Angle::from_degrees(angles[i]),
        clr: Length::from_mm(90.5),
    };
    let start = Frame { origin: Point3::new(-1500.0, -300.0, 60.0), ..Frame::world() };
    BendPath::new(start, (0..12).map(row).collect(), Length::from_mm(200.0)).unwrap()
}

/// The same with one vertex moved, as far as a drag has got.
fn dragged(by_mm: f64) -> Centreline {
    let form = path().to_vertex_form().unwrap();
    let mut points = form.points().to_vec();
    points[6].y += by_mm;
    Centreline::of(&VertexPath::new(points, form.clr().to_vec()).unwrap().to_bend_form().path)
}

#[divan::bench(sample_count = 5)]
fn a_million_triangles_taken_in(bencher: Bencher) {
    let (points, triangles) = field();
    bencher
        .with_inputs(|| (points.clone(), triangles.clone()))
        .bench_values(|(points, triangles)| TriangleMesh::new(points, triangles).unwrap());
}

#[divan::bench]
fn twelve_bends_for_the_first_time(bencher: Bencher) {
    let (tube, body) = (dragged(0.0), Body::mesh(Arc::clone(mesh())));
    bencher.bench_local(|| Nearness::default().measure(black_box(&tube), &body, &Frame::world(), 55.0));
}

#[divan::bench]
fn twelve_bends_after_a_drag_of_one_vertex(bencher: Bencher) {
    let body = Body::mesh(Arc::clone(mesh()));
    let tubes = [dragged(0.0), dragged(2.0)];
    let mut known = Nearness::default();
    let mut turn = 0;
    bencher.bench_local(|| {
        turn = 1 - turn;
        known.measure(black_box(&tubes[turn]), &body, &Frame::world(), 55.0)
    });
}

#[divan::bench]
fn twelve_bends_in_straights_of_a_millimetre_by_parry(bencher: Bencher) {
    let tube = dragged(0.0);
    let chords: Vec<Segment> = tube
        .elements()
        .iter()
        .flat_map(|element| {
            let pieces =
                if element.end().tangent == element.start.tangent { 1 } else { element.length_mm.ceil() as u32 };
            (0..pieces).map(move |piece| {
                let at = |share: u32| {
                    let point = element.frame_at(element.length_mm * f64::from(share) / f64::from(pieces)).origin;
                    Vector::new(point.x, point.y, point.z)
                };
                Segment::new(at(piece), at(piece + 1))
            })
        })
        .collect();
    let mesh = reference();
    bencher.bench_local(|| {
        let to = |chord: &Segment| distance(&Pose::IDENTITY, chord, &Pose::IDENTITY, mesh).unwrap().distance;
        chords.iter().map(to).fold(f64::INFINITY, f64::min)
    });
}
