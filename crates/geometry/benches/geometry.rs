//! How long the geometry takes: conversion and centreline, skin, and the search for meetings.
#![allow(clippy::unwrap_used)]

use divan::{Bencher, black_box};
use elbowroom_geometry::{
    Angle, BendPath, BendRow, Centreline, Frame, Length, SkinMesh, SkinOptions, VertexPath, self_clearances, skin,
    skin_into,
};

fn main() {
    divan::main();
}

/// A part that wanders through space in many planes: 60.3 mm tube, CLR 90.5 mm.
fn wandering(bends: usize) -> BendPath {
    let angles = [45.0, 30.0, 90.0, 22.5, 60.0, 15.0, 90.0, 35.0, 50.0, 75.0, 20.0, 40.0];
    let rotations = [0.0, 90.0, -45.0, 180.0, 30.0, -120.0, 75.0, 10.0, -90.0, 45.0, 150.0, -30.0];
    let row = |i: usize| BendRow {
        straight: Length::from_mm(150.0 + 20.0 * (i % 7) as f64),
        rotation: Angle::from_degrees(rotations[i % 12]),
        angle: Angle::from_degrees(angles[i % 12]),
        clr: Length::from_mm(90.5),
    };
    BendPath::new(Frame::world(), (0..bends).map(row).collect(), Length::from_mm(200.0)).unwrap()
}

fn vertices(bends: usize) -> VertexPath {
    wandering(bends).to_vertex_form().unwrap()
}

#[divan::bench(args = [12, 200, 2000])]
fn vertices_to_bends_and_centreline(bencher: Bencher, bends: usize) {
    let path = vertices(bends);
    bencher.bench_local(|| Centreline::of(&black_box(&path).to_bend_form().path));
}

#[divan::bench(args = [12, 200, 2000])]
fn bends_to_vertices(bencher: Bencher, bends: usize) {
    let path = wandering(bends);
    bencher.bench_local(|| black_box(&path).to_vertex_form());
}

#[divan::bench(args = [12, 200, 2000])]
fn centreline_alone(bencher: Bencher, bends: usize) {
    let path = wandering(bends);
    bencher.bench_local(|| Centreline::of(black_box(&path)));
}

#[divan::bench(args = [12, 200, 2000])]
fn meetings_of_a_wandering_part(bencher: Bencher, bends: usize) {
    let centreline = Centreline::of(&wandering(bends));
    bencher.bench_local(|| self_clearances(black_box(&centreline), 60.3));
}

/// A grid of long legs and U-turns that never meets: the tree's boxes overlap the most.
#[divan::bench(args = [12, 200, 2000])]
fn meetings_of_a_serpentine(bencher: Bencher, bends: usize) {
    let row = |i: usize| BendRow {
        straight: Length::from_mm(1000.0),
        rotation: Angle::from_degrees(if i == 0 { 0.0 } else { 180.0 }),
        angle: Angle::HALF_TURN,
        clr: Length::from_mm(90.5),
    };
    let path = BendPath::new(Frame::world(), (0..bends).map(row).collect(), Length::from_mm(1000.0)).unwrap();
    let centreline = Centreline::of(&path);
    assert!(self_clearances(&centreline, 60.3).is_empty());
    bencher.bench_local(|| self_clearances(black_box(&centreline), 60.3));
}

/// Three turns of a coil that lies on itself: arcs at nearly constant distance, the dearest case.
#[divan::bench]
fn meetings_of_a_coil_on_itself(bencher: Bencher) {
    let row = |i: usize| BendRow {
        straight: Length::from_mm(100.0),
        rotation: Angle::from_degrees(if i == 0 { 0.0 } else { 3.0 }),
        angle: Angle::from_degrees(90.0),
        clr: Length::from_mm(90.5),
    };
    let path = BendPath::new(Frame::world(), (0..12).map(row).collect(), Length::from_mm(100.0)).unwrap();
    let centreline = Centreline::of(&path);
    assert!(!self_clearances(&centreline, 60.3).is_empty());
    bencher.bench_local(|| self_clearances(black_box(&centreline), 60.3));
}

#[divan::bench]
fn skin_of_12_bends(bencher: Bencher) {
    let centreline = Centreline::of(&wandering(12));
    let options = SkinOptions { od_mm: 60.3, ..SkinOptions::default() };
    bencher.bench_local(|| skin(black_box(&centreline), &options));
}

#[divan::bench]
fn skin_of_12_bends_into_used_memory(bencher: Bencher) {
    let centreline = Centreline::of(&wandering(12));
    let options = SkinOptions { od_mm: 60.3, ..SkinOptions::default() };
    let mut mesh = SkinMesh::default();
    bencher.bench_local(|| {
        skin_into(black_box(&centreline), &options, &mut mesh);
        mesh.triangles.len()
    });
}

#[divan::bench]
fn frame_at_a_length_of_2000_bends(bencher: Bencher) {
    let centreline = Centreline::of(&wandering(2000));
    let station = centreline.length_mm() * 0.61;
    bencher.bench_local(|| black_box(&centreline).frame_at(black_box(station)));
}

#[divan::bench]
fn closest_point_of_12_bends(bencher: Bencher) {
    let centreline = Centreline::of(&wandering(12));
    let point = centreline.point_at(1234.0) + centreline.frame_at(1234.0).normal * 31.0;
    bencher.bench_local(|| black_box(&centreline).closest_point(black_box(&point)));
}

#[divan::bench]
fn box_of_12_bends(bencher: Bencher) {
    let centreline = Centreline::of(&wandering(12));
    bencher.bench_local(|| black_box(&centreline).tube_bounding_box(60.3));
}
