//! The skin: watertight, true to its tolerance, outward, exact at edges, without twist.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::collections::HashMap;
use std::f64::consts::{PI, TAU};

use crate::common::{line, row, twelve_bends};
use elbowroom_geometry::{
    Centreline, Ends, Point3, SkinMesh, SkinOptions, skin, skin_of_elements_into, skin_references, tolerance_within,
};
use proptest::prelude::*;

fn closed(od_mm: f64, chord_tolerance_mm: f64) -> SkinOptions<'static> {
    SkinOptions { od_mm, chord_tolerance_mm, ends: Ends::Closed, cuts: &[] }
}

/// Signed volume by the divergence theorem.
fn volume(mesh: &SkinMesh) -> f64 {
    let at = |i: u32| mesh.positions[i as usize].coords;
    mesh.triangles.iter().map(|[a, b, c]| at(*a).dot(&at(*b).cross(&at(*c))) / 6.0).sum()
}

/// How many times each directed edge occurs, vertices joined by their exact position.
fn directed_edges(mesh: &SkinMesh) -> HashMap<([u64; 3], [u64; 3]), usize> {
    // Adding 0 makes one zero of the two.
    let key = |i: u32| mesh.positions[i as usize].coords.map(|c| (c + 0.0).to_bits()).into();
    let mut edges = HashMap::new();
    for [a, b, c] in &mesh.triangles {
        for (from, to) in [(a, b), (b, c), (c, a)] {
            let (from, to): ([u64; 3], [u64; 3]) = (key(*from), key(*to));
            *edges.entry((from, to)).or_insert(0) += 1;
        }
    }
    edges
}

fn assert_watertight(mesh: &SkinMesh) {
    let edges = directed_edges(mesh);
    for ((from, to), count) in &edges {
        assert_eq!(*count, 1, "an edge is used once in each direction");
        assert_eq!(edges.get(&(*to, *from)), Some(&1), "and its neighbour runs the other way");
    }
}

/// Distance of a point from the true skin of one stretch's element, by the tube's own definition.
fn off_skin(centreline: &Centreline, element: usize, point: &Point3<f64>, radius_mm: f64) -> f64 {
    let element = centreline.elements()[element];
    let d = point - element.start.origin;
    let from_axis = match element.kind {
        elbowroom_geometry::ElementKind::Straight => (d - element.start.tangent * d.dot(&element.start.tangent)).norm(),
        elbowroom_geometry::ElementKind::Arc { radius_mm: clr, .. } => {
            let d = d - element.start.normal * clr;
            let axial = d.dot(&element.start.binormal());
            let radial = (d - element.start.binormal() * axial).norm();
            (radial - clr).hypot(axial)
        }
    };
    (from_axis - radius_mm).abs()
}

#[test]
fn closed_skin_is_watertight_and_holds_the_volume_of_pappus() {
    let centreline = Centreline::of(&twelve_bends());
    let mesh = skin(&centreline, &closed(60.3, 0.01));
    assert_watertight(&mesh);
    // Pappus: the centroid of the section lies on the centreline, so V = π r² L.
    let expected = PI * 30.15f64.powi(2) * centreline.length_mm();
    let error = volume(&mesh) / expected - 1.0;
    assert!((-0.002..0.0).contains(&error), "an inscribed skin is a little smaller: {error}");
}

#[test]
fn open_skin_has_two_rims() {
    let centreline = line(&[row(100.0, 0.0, 90.0, 76.2)], 100.0);
    let mesh = skin(&centreline, &SkinOptions { od_mm: 50.8, ..SkinOptions::default() });
    let edges = directed_edges(&mesh);
    let rim = edges.keys().filter(|(a, b)| !edges.contains_key(&(*b, *a))).count();
    let facets = mesh.around.iter().filter(|(_, station)| *station == 0.0).count() - 1;
    assert_eq!(rim, 2 * facets);
}

#[test]
fn stretches_end_exactly_at_tangent_points_and_cuts() {
    let centreline = line(&[row(100.0, 0.0, 90.0, 76.2), row(50.0, 90.0, 45.0, 76.2)], 100.0);
    let arc_start = centreline.arc(0).unwrap().from_mm;
    // Unsorted, twice the same, one on a tangent point, two outside, one that is no number.
    let cuts = [130.25, 33.0, 33.0, arc_start, -5.0, 1e6, f64::NAN];
    let options = SkinOptions { od_mm: 50.8, cuts: &cuts, ends: Ends::Closed, ..SkinOptions::default() };
    let mesh = skin(&centreline, &options);
    assert_watertight(&mesh);
    let mut edges = vec![0.0, 33.0, arc_start, 130.25];
    edges.extend(centreline.elements()[1..].iter().map(|e| e.to_mm()));
    let found: Vec<(f64, f64)> = mesh.stretches.iter().map(|s| (s.from_mm, s.to_mm)).collect();
    let expected: Vec<(f64, f64)> = edges.windows(2).map(|pair| (pair[0], pair[1])).collect();
    assert_eq!(found, expected);
    for (index, stretch) in mesh.stretches.iter().enumerate() {
        let stations = || mesh.around[stretch.vertices.clone()].iter().map(|(_, station)| *station);
        assert_eq!(stations().fold(f64::INFINITY, f64::min), stretch.from_mm);
        assert_eq!(stations().fold(f64::NEG_INFINITY, f64::max), stretch.to_mm);
        for triangle in stretch.triangles.clone() {
            assert_eq!(mesh.stretch_of_triangle(triangle), Some(index));
            assert!(mesh.triangles[triangle].iter().all(|v| stretch.vertices.contains(&(*v as usize))));
        }
    }
    assert_eq!(mesh.stretch_of_triangle(mesh.triangles.len()), None);
}

#[test]
fn overlapping_arcs_are_two_closed_runs() {
    let centreline = line(&[row(100.0, 0.0, 90.0, 76.2), row(-20.0, 90.0, 90.0, 76.2)], 100.0);
    let mesh = skin(&centreline, &closed(50.8, 0.1));
    assert_watertight(&mesh);
    let drawn: f64 = centreline.elements().iter().map(|e| e.length_mm.max(0.0)).sum();
    assert!((volume(&mesh) / (PI * 25.4f64.powi(2) * drawn) - 1.0).abs() < 0.02);
}

#[test]
fn odd_parts_are_drawn_without_a_panic() {
    let fold = common::vertices(&[[0.0, 0.0, 0.0], [100.0, 0.0, 0.0], [20.0, 0.0, 0.0]], 50.0).to_bend_form();
    let odd = [
        Centreline::of(&fold.path),
        line(&[], 0.0),
        line(&[row(-10.0, 0.0, 0.0, 0.0)], -10.0),
        line(&[row(0.0, 0.0, 90.0, 5.0), row(0.0, 45.0, 180.0, 5.0)], 0.0),
        line(&[row(100.0, 0.0, 90.0, 0.0)], 100.0),
        line(&[row(1e7, 0.0, 90.0, 1e7)], 1e7),
    ];
    for centreline in &odd {
        for od in [50.8, 0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
            for tolerance in [0.25, 0.0, -1.0, f64::NAN, f64::INFINITY] {
                let mesh = skin(centreline, &closed(od, tolerance));
                assert!(mesh.positions.iter().all(|p| p.iter().all(|c| c.is_finite())));
                assert_eq!(mesh.positions.len(), mesh.normals.len());
                assert_eq!(mesh.positions.len(), mesh.around.len());
                assert!(mesh.positions.len() < 2_000_000);
            }
        }
    }
    assert!(skin(&odd[1], &closed(50.8, 0.25)).triangles.is_empty());
    assert!(!skin(&odd[0], &closed(50.8, 0.25)).triangles.is_empty());
}

#[test]
fn skin_of_a_tight_bend_follows_the_torus() {
    // CLR under OD/2: the inside of the bend folds through itself, the outside stays true.
    let centreline = line(&[row(100.0, 0.0, 120.0, 20.0)], 100.0);
    let mesh = skin(&centreline, &closed(50.8, 0.25));
    assert_watertight(&mesh);
}

proptest! {
    #[test]
    fn triangles_lie_within_the_tolerance_and_look_outwards(
        rows in common::rows(1..6, 0.0..300.0, 0.1..=200.0),
        tolerance in 0.02..1.0f64,
    ) {
        let rows: Vec<_> = rows.into_iter().map(|mut r| { r.clr += elbowroom_geometry::Length::from_mm(30.0); r }).collect();
        let centreline = line(&rows, 50.0);
        let mesh = skin(&centreline, &SkinOptions { od_mm: 60.3, chord_tolerance_mm: tolerance, ..SkinOptions::default() });
        for stretch in &mesh.stretches {
            for triangle in &mesh.triangles[stretch.triangles.clone()] {
                let [a, b, c] = triangle.map(|i| mesh.positions[i as usize]);
                for (u, v) in [(0.0, 0.0), (0.5, 0.5), (0.5, 0.0), (0.0, 0.5), (1.0 / 3.0, 1.0 / 3.0), (0.25, 0.5)] {
                    let point = a + (b - a) * u + (c - a) * v;
                    let off = off_skin(&centreline, stretch.element, &point, 30.15);
                    prop_assert!(off <= tolerance * (1.0 + 1e-6), "{off} mm off at a tolerance of {tolerance} mm");
                }
                let face = (b - a).cross(&(c - a));
                for i in triangle {
                    prop_assert!(face.dot(&mesh.normals[*i as usize]) >= 0.0);
                }
            }
        }
    }

    #[test]
    fn any_closed_skin_is_watertight_wherever_it_is_cut(
        rows in common::rows(0..6, -30.0..300.0, 0.0..=300.0),
        cuts in proptest::collection::vec(-50.0..2500.0f64, 0..12),
        tail in -20.0..100.0f64,
    ) {
        let centreline = line(&rows, tail);
        let options = SkinOptions { od_mm: 39.0, ends: Ends::Closed, cuts: &cuts, ..SkinOptions::default() };
        let mesh = skin(&centreline, &options);
        assert_watertight(&mesh);
        let drawn: f64 = centreline.elements().iter().map(|e| e.length_mm.max(0.0)).sum();
        let covered: f64 = mesh.stretches.iter().map(|s| s.to_mm - s.from_mm).sum();
        prop_assert!((drawn - covered).abs() < 1e-6);
        // A facet of the section loses less than 3 % of its area at this tolerance, a step along the arc less.
        let expected = PI * 19.5f64.powi(2) * drawn;
        prop_assert!(volume(&mesh) <= expected * (1.0 + 1e-9) && volume(&mesh) >= expected * 0.96);
    }

    #[test]
    fn the_reference_line_never_jumps(rows in common::rows(1..8, 1.0..300.0, 0.1..=200.0)) {
        let centreline = line(&rows, 50.0);
        let mesh = skin(&centreline, &SkinOptions { od_mm: 10.0, ..SkinOptions::default() });
        // The seam vertices, in order: their normals turn no more than the tube does.
        let seam: Vec<usize> = (0..mesh.around.len()).filter(|i| mesh.around[*i].0 == 0.0).collect();
        for pair in seam.windows(2) {
            let turn = mesh.normals[pair[0]].angle(&mesh.normals[pair[1]]);
            let (from, to) = (mesh.around[pair[0]].1, mesh.around[pair[1]].1);
            let tube_turn = centreline.tangent_at(from).angle(&centreline.tangent_at(to));
            prop_assert!(turn <= tube_turn + 1e-6, "{turn} against {tube_turn}");
        }
        let full = mesh.around.iter().filter(|(angle, _)| *angle == TAU).count();
        prop_assert_eq!(full, seam.len());
    }
}

#[test]
fn a_long_tube_is_drawn_coarser_and_a_usual_one_as_fine_as_asked() {
    let bends = |count: usize| line(&vec![row(120.0, 45.0, 90.0, 90.5); count], 120.0);
    let options = SkinOptions { od_mm: 60.3, ..SkinOptions::default() };
    let budget = 400_000;
    assert_eq!(tolerance_within(&bends(12), &options, budget), options.chord_tolerance_mm);
    assert_eq!(tolerance_within(&bends(200), &options, budget), options.chord_tolerance_mm);
    for count in [2000, 5000] {
        let centreline = bends(count);
        let chord_tolerance_mm = tolerance_within(&centreline, &options, budget);
        let vertices =
            |chord_tolerance_mm| skin(&centreline, &SkinOptions { chord_tolerance_mm, ..options }).positions.len();
        assert!(vertices(chord_tolerance_mm) <= budget, "{count} bends: {}", vertices(chord_tolerance_mm));
        assert!(vertices(chord_tolerance_mm / 2.0) > budget, "{count} bends could be drawn finer");
    }
    // However long, it stays a tube; where nothing can be saved any more the search ends.
    let shortest = tolerance_within(&bends(2000), &options, 0);
    assert!(
        shortest.is_finite()
            && !skin(&bends(9), &SkinOptions { chord_tolerance_mm: shortest, ..options }).triangles.is_empty()
    );
}

#[test]
fn a_skin_swept_piece_by_piece_is_the_skin_swept_at_once() {
    // An overlap and a ball joint lie within, and a cut on each side of an edge between pieces.
    let mut rows = twelve_bends().rows().to_vec();
    rows[4] = row(-30.0, 20.0, 60.0, 90.5);
    rows[7] = row(80.0, -70.0, 45.0, 0.0);
    let centreline = line(&rows, 120.0);
    let edge_mm = centreline.elements()[10].from_mm;
    let cuts = [40.0, edge_mm - 20.0, edge_mm + 20.0, 2000.0];
    let options = SkinOptions { od_mm: 60.3, chord_tolerance_mm: 0.5, ends: Ends::Open, cuts: &cuts };
    let whole = skin(&centreline, &options);
    for step in [1, 5, 10, 100] {
        let references = skin_references(&centreline, step);
        assert_eq!(references.len(), centreline.elements().len().div_ceil(step));
        let (mut stretches, mut places, mut triangles) = (Vec::new(), Vec::new(), 0);
        let mut piece = SkinMesh::default();
        for (index, reference) in references.iter().enumerate() {
            skin_of_elements_into(&centreline, index * step..(index + 1) * step, reference, &options, &mut piece);
            stretches.extend(piece.stretches.iter().map(|s| (s.element, s.from_mm, s.to_mm, s.vertices.len())));
            places.extend(piece.positions.iter().zip(&piece.normals).map(|(at, normal)| (*at, *normal)));
            triangles += piece.triangles.len();
        }
        let wanted: Vec<_> =
            whole.stretches.iter().map(|s| (s.element, s.from_mm, s.to_mm, s.vertices.len())).collect();
        assert_eq!(stretches, wanted, "in pieces of {step}");
        assert_eq!((places.len(), triangles), (whole.positions.len(), whole.triangles.len()));
        for ((at, normal), (whole_at, whole_normal)) in places.iter().zip(whole.positions.iter().zip(&whole.normals)) {
            assert!((at - whole_at).norm() < 1e-9 && (normal - whole_normal).norm() < 1e-12, "{at} {whole_at}");
        }
    }
}
