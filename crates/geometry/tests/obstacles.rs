//! How near a tube comes to what stands around it: cases worked out by hand, sampling, and a reference library.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::f64::consts::FRAC_PI_2;
use std::sync::Arc;

use crate::common::{frames, line, row, rows, twelve_bends};
use elbowroom_geometry::{
    Apart, Body, Centreline, Frame, Length, Nearness, Point3, Refusal, SETTLED_MM, TriangleMesh, Vector3, tubes_apart,
};
use proptest::prelude::*;

/// What arcs may be told nearer than they are, and what rounding adds in a frame of its own, mm.
const WITHIN: f64 = 2.0 * SETTLED_MM;

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

fn at(x: f64, y: f64, z: f64) -> Frame {
    Frame { origin: Point3::new(x, y, z), ..Frame::world() }
}

fn measured(centreline: &Centreline, body: &Body, placement: &Frame) -> Apart {
    Nearness::default().measure(centreline, body, placement, 0.0)
}

fn cuboid(x: f64, y: f64, z: f64) -> Body {
    Body::cuboid([mm(x), mm(y), mm(z)]).unwrap()
}

/// The twelve triangles of a box about the origin, turned outwards, moved by an offset.
fn box_triangles(half: [f64; 3], offset: [f64; 3]) -> (Vec<Point3<f64>>, Vec<[u32; 3]>) {
    let corner = |index: u32| {
        let side = |axis: usize| if index >> axis & 1 == 1 { half[axis] } else { -half[axis] };
        Point3::new(side(0) + offset[0], side(1) + offset[1], side(2) + offset[2])
    };
    let quads: [[u32; 4]; 6] = [[0, 4, 6, 2], [1, 3, 7, 5], [0, 1, 5, 4], [2, 6, 7, 3], [0, 2, 3, 1], [4, 5, 7, 6]];
    let triangles = quads.iter().flat_map(|[a, b, c, d]| [[*a, *b, *c], [*a, *c, *d]]).collect();
    ((0..8).map(corner).collect(), triangles)
}

fn box_mesh(half: [f64; 3]) -> Body {
    let (points, triangles) = box_triangles(half, [0.0; 3]);
    Body::mesh(Arc::new(TriangleMesh::new(points, triangles).unwrap()))
}

#[test]
fn a_straight_beside_a_box_a_cylinder_and_a_plane() {
    // 300 mm along x.
    let tube = line(&[], 300.0);
    // A box of 100 × 40 × 60 whose near face stands at y = 50.
    let near = measured(&tube, &cuboid(100.0, 40.0, 60.0), &at(150.0, 70.0, 0.0));
    assert!((near.distance_mm - 50.0).abs() < 1e-9, "{near:?}");
    assert!((99.9..=200.1).contains(&near.station_mm) && (near.on_other.y - 50.0).abs() < 1e-9, "{near:?}");
    // Past the end by 30 and beside by 40: the corner's edge is 50 away, at the end of the tube.
    let near = measured(&tube, &cuboid(100.0, 40.0, 60.0), &at(380.0, 60.0, 0.0));
    assert!((near.distance_mm - 50.0).abs() < 1e-9 && near.station_mm == 300.0, "{near:?}");
    // A cylinder of 80 across along x beside it: 100 − 40; past its end by 30 and 40 above its rim: 50.
    let cylinder = Body::cylinder(mm(80.0), mm(200.0)).unwrap();
    let near = measured(&tube, &cylinder, &at(150.0, 0.0, 100.0));
    assert!((near.distance_mm - 60.0).abs() < 1e-9 && (near.on_other.z - 60.0).abs() < 1e-9, "{near:?}");
    let near = measured(&tube, &cylinder, &at(430.0, 80.0, 0.0));
    assert!((near.distance_mm - 50.0).abs() < 1e-9, "{near:?}");
    // The ground 130 below, and a tube that runs 20 below it.
    assert_eq!(measured(&tube, &Body::below(), &at(0.0, 0.0, -130.0)).distance_mm, 130.0);
    assert_eq!(measured(&tube, &Body::below(), &at(0.0, 0.0, 20.0)).distance_mm, -20.0);
}

#[test]
fn a_straight_inside_a_box_and_a_cylinder_is_as_deep_as_it_lies() {
    let tube = line(&[], 300.0);
    // The axis lies 20 inside the nearest face, which is that of y.
    let near = measured(&tube, &cuboid(900.0, 40.0, 60.0), &at(150.0, 0.0, 0.0));
    assert!((near.distance_mm + 20.0).abs() < 1e-9, "{near:?}");
    let cylinder = Body::cylinder(mm(80.0), mm(900.0)).unwrap();
    let near = measured(&tube, &cylinder, &at(150.0, 0.0, 30.0));
    assert!((near.distance_mm + 10.0).abs() < 1e-9, "{near:?}");
}

#[test]
fn a_quarter_bend_is_an_arc_and_no_facets() {
    // CLR 100 from the origin towards +y: its outermost point lies on the ray at 45° from the centre (0, 100).
    let tube = line(&[row(0.0, 0.0, 90.0, 100.0)], 0.0);
    let root = 0.5_f64.sqrt();
    // A wall square to that ray, 30 beyond the outermost point.
    let outwards = Vector3::new(root, -root, 0.0);
    let origin = Point3::new(0.0, 100.0, 0.0) + outwards * 130.0;
    // Its free side, the binormal, faces the bend.
    let wall = Frame { origin, tangent: Vector3::new(root, root, 0.0), normal: -Vector3::z() };
    assert!((wall.binormal() + outwards).norm() < 1e-12);
    let near = measured(&tube, &Body::below(), &wall);
    assert!(near.distance_mm <= 30.0 + 1e-9 && near.distance_mm > 30.0 - WITHIN, "{near:?}");
    assert!((near.station_mm - 100.0 * FRAC_PI_2 / 2.0).abs() < 0.1 && near.element == 1, "{near:?}");
    // The same wall as two triangles.
    let corner = |s: f64, t: f64| origin + Vector3::new(root, root, 0.0) * s + Vector3::z() * t;
    let points = vec![corner(-90.0, -90.0), corner(90.0, -90.0), corner(90.0, 90.0), corner(-90.0, 90.0)];
    let mesh = Body::mesh(Arc::new(TriangleMesh::new(points, vec![[0, 1, 2], [0, 2, 3]]).unwrap()));
    let near = measured(&tube, &mesh, &Frame::world());
    assert!(near.distance_mm <= 30.0 + 1e-9 && near.distance_mm > 30.0 - WITHIN, "{near:?}");
}

#[test]
fn a_bend_that_runs_flat_over_the_ground_is_settled() {
    // Three quarters of a turn at a constant height of 45.
    let tube = line(&[row(50.0, 0.0, 270.0, 120.0)], 50.0);
    let near = measured(&tube, &Body::below(), &at(0.0, 0.0, -45.0));
    assert!(near.distance_mm <= 45.0 + 1e-9 && near.distance_mm > 45.0 - WITHIN, "{near:?}");
}

#[test]
fn inside_a_closed_body_is_a_hit_and_inside_an_open_one_is_not() {
    let tube = line(&[], 100.0);
    let inside = at(50.0, 0.0, 0.0);
    let near = measured(&tube, &box_mesh([80.0, 40.0, 30.0]), &inside);
    assert!((near.distance_mm + 30.0).abs() < 1e-9, "30 from the nearest face, inside: {near:?}");
    let (points, mut triangles) = box_triangles([80.0, 40.0, 30.0], [0.0; 3]);
    triangles.pop();
    let open = Body::mesh(Arc::new(TriangleMesh::new(points, triangles).unwrap()));
    assert!((measured(&tube, &open, &inside).distance_mm - 30.0).abs() < 1e-9);
    // Through the wall: no distance at all.
    assert_eq!(measured(&line(&[], 400.0), &box_mesh([80.0, 40.0, 30.0]), &inside).distance_mm, 0.0);
}

#[test]
fn hollows_are_outside_overlaps_inside_and_turning_round_changes_nothing() {
    let joined = |one: (Vec<Point3<f64>>, Vec<[u32; 3]>), two: (Vec<Point3<f64>>, Vec<[u32; 3]>), turned: bool| {
        let (mut points, mut triangles) = one;
        let more = two.1.iter().map(|[a, b, c]| {
            let [a, b, c] = [a + 8, b + 8, c + 8];
            if turned { [a, c, b] } else { [a, b, c] }
        });
        triangles.extend(more);
        points.extend(two.0);
        TriangleMesh::new(points, triangles).unwrap()
    };
    let big = || box_triangles([50.0; 3], [0.0; 3]);
    let small = || box_triangles([20.0; 3], [0.0; 3]);
    let hollow = joined(big(), small(), true);
    assert_eq!(hollow.closed_triangles(), 24);
    assert!(!hollow.holds(&Point3::origin()) && hollow.holds(&Point3::new(35.0, 1.0, 2.0)));
    let overlapping = joined(big(), box_triangles([50.0; 3], [60.0, 0.0, 0.0]), false);
    assert!(overlapping.holds(&Point3::new(30.0, 1.0, 2.0)), "inside of both");
    assert!(overlapping.holds(&Point3::new(-30.0, 1.0, 2.0)) && !overlapping.holds(&Point3::new(-51.0, 0.0, 0.0)));
    // One triangle turned round: closed all the same, by counting.
    let (points, mut triangles) = big();
    triangles[3].swap(0, 1);
    let mixed = TriangleMesh::new(points, triangles).unwrap();
    assert!(mixed.holds(&Point3::new(1.0, 2.0, 3.0)) && !mixed.holds(&Point3::new(1.0, 2.0, 51.0)));
    // Every triangle with corners of its own, as STL has them.
    let (points, triangles) = big();
    let loose: Vec<_> = triangles.iter().flatten().map(|corner| points[*corner as usize]).collect();
    let numbered = (0..12).map(|index| [3 * index, 3 * index + 1, 3 * index + 2]).collect();
    let mesh = TriangleMesh::new(loose, numbered).unwrap();
    assert_eq!((mesh.points().len(), mesh.closed_triangles()), (8, 12));
}

#[test]
fn what_is_no_mesh_or_body_is_refused_with_its_place() {
    let (points, triangles) = box_triangles([1.0; 3], [0.0; 3]);
    let said = |points: Vec<Point3<f64>>, triangles: Vec<[u32; 3]>| -> String {
        TriangleMesh::new(points, triangles).unwrap_err().to_string()
    };
    for bad in [f64::NAN, f64::INFINITY, 1.1e7, -1e300] {
        let mut spoilt = points.clone();
        spoilt[4].y = bad;
        assert!(said(spoilt, triangles.clone()).starts_with("vertex 5, y is "));
    }
    let mut spoilt = triangles.clone();
    spoilt[6][1] = 8;
    assert_eq!(said(points.clone(), spoilt), "a vertex of triangle 7 is 9; it must be one of the 8 vertices there are");
    assert!(said(points, vec![]).starts_with("the number of triangles is 0"));
    let refused: [Result<Body, Refusal>; 4] = [
        Body::cuboid([mm(0.0), mm(1.0), mm(1.0)]),
        Body::cuboid([mm(1.0), mm(1.0), mm(f64::NAN)]),
        Body::cylinder(mm(-4.0), mm(1.0)),
        Body::cylinder(mm(4.0), mm(2e7)),
    ];
    let fields = ["the edge of the box along x", "the edge of the box along z", "the diameter", "the length"];
    for (refused, field) in refused.into_iter().zip(fields) {
        assert!(refused.unwrap_err().field.starts_with(field));
    }
}

#[test]
fn stretches_begin_and_end_where_the_limit_is_met() {
    // Past a rod square to the tube at y = 30, x = 200: nearer than 50 within √(50² − 30²) = 40 either way.
    let tube = line(&[], 500.0);
    let rod = Body::cylinder(mm(0.002), mm(1000.0)).unwrap();
    let upright = Frame { origin: Point3::new(200.0, 30.0, 0.0), tangent: Vector3::z(), normal: Vector3::x() };
    let mut nearness = Nearness::default();
    nearness.measure(&tube, &rod, &upright, 50.0);
    let stretches = nearness.stretches(&rod, 50.0);
    assert_eq!(stretches.len(), 1, "{stretches:?}");
    assert!((stretches[0].from_mm - 160.0).abs() < 0.01 && (stretches[0].to_mm - 240.0).abs() < 0.01, "{stretches:?}");
    assert_eq!(nearness.stretches(&rod, 29.0), vec![]);
}

#[test]
fn only_what_has_moved_is_measured_again() {
    let path = twelve_bends();
    let mesh = box_mesh([40.0, 50.0, 60.0]);
    let tube = Centreline::of(&path);
    let placement = at(tube.point_at(900.0).x, tube.point_at(900.0).y + 200.0, 60.0);
    let mut nearness = Nearness::default();
    let first = nearness.measure(&tube, &mesh, &placement, 0.0);
    let whole = nearness.measured();
    assert_eq!(nearness.measure(&tube, &mesh, &placement, 0.0), first);
    assert_eq!(nearness.measured(), whole, "nothing has moved");
    // One vertex moved: three bends and the straights beside them are others.
    let mut form = path.to_vertex_form().unwrap().points().to_vec();
    form[6].x += 3.0;
    let clr = vec![mm(90.5); form.len() - 2];
    let moved = elbowroom_geometry::VertexPath::new(form, clr).unwrap().to_bend_form().path;
    let moved = Centreline::of(&moved);
    let again = nearness.measure(&moved, &mesh, &placement, 0.0);
    let more = nearness.measured() - whole;
    assert!((1..=14).contains(&more), "{more} searches, {whole} at first");
    let fresh = measured(&moved, &mesh, &placement);
    assert!((again.distance_mm - fresh.distance_mm).abs() < WITHIN, "{again:?} {fresh:?}");
}

#[test]
fn two_tubes_are_as_far_apart_as_they_are_drawn() {
    let along = line(&[], 500.0);
    let beside = |y: f64| Frame { origin: Point3::new(0.0, y, 0.0), ..Frame::world() };
    let path = |start: Frame, rows: Vec<_>| {
        Centreline::of(&elbowroom_geometry::BendPath::new(start, rows, mm(200.0)).unwrap())
    };
    let whole = (0.0, f64::INFINITY);
    // A quarter bend that turns towards the first tube: CLR 100, its tail of 200 runs straight at it from y = 400.
    let second = path(Frame { normal: -Vector3::y(), ..beside(400.0) }, vec![row(50.0, 0.0, 90.0, 100.0)]);
    let near = tubes_apart([&along, &second], [whole, whole], 1000.0).unwrap();
    assert!((near.distance_mm - 100.0).abs() < 2e-6, "{near:?}");
    assert!((near.stations_mm[0] - 150.0).abs() < 1e-3 && near.elements == [0, 2], "{near:?}");
    assert_eq!(tubes_apart([&along, &second], [whole, whole], 99.0), None);
    // Of the second tube only its first 100 mm: the arc's bound, still 400 − what it has turned by then.
    let turned = 50.0_f64 / 100.0;
    let near = tubes_apart([&along, &second], [whole, (0.0, 100.0)], 1000.0).unwrap();
    assert!((near.distance_mm - (400.0 - 100.0 * (1.0 - turned.cos()))).abs() < 2e-6, "{near:?}");
}

/// A bumpy sheet of triangles.
fn sheet(heights: &[f64]) -> (Vec<Point3<f64>>, Vec<[u32; 3]>) {
    let side = heights.len().isqrt();
    let points = (0..side * side).map(|i| Point3::new((i % side) as f64 * 60.0, (i / side) as f64 * 60.0, heights[i]));
    let number = |x: usize, y: usize| (y * side + x) as u32;
    let cells = (0..side - 1).flat_map(|y| (0..side - 1).map(move |x| (x, y)));
    let triangles = cells.flat_map(|(x, y)| {
        let [a, b, c, d] = [number(x, y), number(x + 1, y), number(x + 1, y + 1), number(x, y + 1)];
        [[a, b, c], [a, c, d]]
    });
    (points.collect(), triangles.collect())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// A box in closed form and the same box in triangles tell the same distance outside, and both are a hit inside.
    #[test]
    fn a_box_and_its_triangles_agree(
        rows in rows(0..5, 10.0..150.0, 0.0..=180.0), placement in frames(), edges in proptest::array::uniform3(20.0..300.0f64),
        offset in proptest::array::uniform3(-300.0..300.0f64),
    ) {
        let tube = line(&rows, 80.0);
        let placement = Frame { origin: Point3::from(offset), ..placement };
        let solid = measured(&tube, &cuboid(edges[0], edges[1], edges[2]), &placement);
        let mesh = measured(&tube, &box_mesh(edges.map(|edge| edge / 2.0)), &placement);
        if solid.distance_mm > 0.0 {
            prop_assert!((solid.distance_mm - mesh.distance_mm).abs() < WITHIN, "{:?} {:?}", solid, mesh);
        } else {
            prop_assert!(mesh.distance_mm <= 0.0, "{:?} {:?}", solid, mesh);
        }
        let at = tube.point_at(solid.station_mm);
        prop_assert!((at - solid.on_centreline).norm() < 1e-6);
        prop_assert!(((solid.on_other - solid.on_centreline).norm() - solid.distance_mm.abs()).abs() < WITHIN);
    }

    /// No sampled place is nearer than what is told, and what is told is no less than what sampling comes to.
    #[test]
    fn sampling_finds_nothing_nearer(
        rows in rows(0..5, 0.0..150.0, 0.0..=200.0), heights in proptest::collection::vec(-40.0..40.0f64, 36),
        offset in proptest::array::uniform3(-100.0..100.0f64), placement in frames(),
    ) {
        let tube = line(&rows, 80.0);
        let (points, triangles) = sheet(&heights);
        let placement = Frame { origin: Point3::from(offset), ..placement };
        let body = Body::mesh(Arc::new(TriangleMesh::new(points, triangles).unwrap()));
        let near = measured(&tube, &body, &placement);
        let mut least = f64::INFINITY;
        let step = tube.length_mm() / 2000.0;
        for index in 0..=2000 {
            let here = Frame { origin: tube.point_at(step * f64::from(index)), ..Frame::world() };
            let point = line_of_point(&here);
            least = least.min(measured(&point, &body, &placement).distance_mm);
        }
        prop_assert!(near.distance_mm <= least + 1e-9, "{near:?} {least}");
        prop_assert!(least <= near.distance_mm + step + WITHIN, "{near:?} {least}");
    }

    /// The parry library (parry3d-f64, Apache-2.0) finds the same distance from every straight of a polyline to random
    /// triangles, on both sides of nothing.
    #[test]
    fn a_reference_library_finds_the_same(
        ends in proptest::collection::vec(proptest::array::uniform3(-150.0..150.0f64), 2..6),
        corners in proptest::collection::vec(proptest::array::uniform3(-100.0..100.0f64), 3..30),
        picks in proptest::collection::vec((0..30_usize, 0..30_usize, 0..30_usize), 1..40),
    ) {
        use parry3d_f64::math::{Pose, Vector};
        use parry3d_f64::query::distance;
        use parry3d_f64::shape::{Segment, TriMesh};

        let pick = |index: usize| (index % corners.len()) as u32;
        let triangles: Vec<[u32; 3]> = picks.iter().map(|(a, b, c)| [pick(*a), pick(*b), pick(*c)]).collect();
        // A triangle on two points is a line, which the library counts as nothing.
        let triangles: Vec<_> = triangles.into_iter().filter(|[a, b, c]| a != b && b != c && c != a).collect();
        prop_assume!(!triangles.is_empty());
        let theirs = TriMesh::new(corners.iter().map(|[x, y, z]| Vector::new(*x, *y, *z)).collect(), triangles.clone()).unwrap();
        let points: Vec<Point3<f64>> = corners.iter().map(|corner| Point3::from(*corner)).collect();
        let mesh = TriangleMesh::new(points, triangles).unwrap();
        let closed = mesh.closed_triangles() > 0;
        let ours = Body::mesh(Arc::new(mesh));
        for (from, to) in ends.iter().zip(&ends[1..]) {
            let direction = Point3::from(*to) - Point3::from(*from);
            let start = Frame::along(Point3::from(*from), direction, Vector3::x()).unwrap();
            let path = elbowroom_geometry::BendPath::new(start, vec![], mm(direction.norm())).unwrap();
            let near = measured(&Centreline::of(&path), &ours, &Frame::world());
            let [from, to] = [from, to].map(|[x, y, z]| Vector::new(*x, *y, *z));
            let wanted = distance(&Pose::IDENTITY, &Segment::new(from, to), &Pose::IDENTITY, &theirs).unwrap().distance;
            if near.distance_mm >= 0.0 || !closed {
                prop_assert!((near.distance_mm - wanted).abs() < 1e-6, "{near:?}, not {wanted}");
            }
        }
    }

    /// Moving tube and obstacle together changes nothing.
    #[test]
    fn a_rigid_motion_changes_nothing(
        rows in rows(1..5, 10.0..150.0, 0.0..=180.0), motion in frames(), heights in proptest::collection::vec(-40.0..40.0f64, 16),
    ) {
        let (points, triangles) = sheet(&heights);
        let body = Body::mesh(Arc::new(TriangleMesh::new(points, triangles).unwrap()));
        let start = Frame { origin: Point3::new(10.0, -50.0, 120.0), ..Frame::world() };
        let path = |start: Frame| Centreline::of(&elbowroom_geometry::BendPath::new(start, rows.clone(), mm(60.0)).unwrap());
        let here = measured(&path(start), &body, &Frame::world());
        let tangent = motion.world_point(&Point3::from(start.tangent)) - motion.origin;
        let normal = motion.world_point(&Point3::from(start.normal)) - motion.origin;
        let moved = Frame::along(motion.world_point(&start.origin), tangent, normal).unwrap();
        let there = measured(&path(moved), &body, &motion);
        prop_assert!((here.distance_mm - there.distance_mm).abs() < WITHIN, "{:?} {:?}", here, there);
    }
}

/// A tube of no length.
fn line_of_point(start: &Frame) -> Centreline {
    Centreline::of(&elbowroom_geometry::BendPath::new(*start, vec![], mm(0.0)).unwrap())
}
