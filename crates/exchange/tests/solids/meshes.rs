//! Meshes are closed, of the right size, and marked where something is found.

use std::collections::HashMap;
use std::f64::consts::PI;

use elbowroom_bending::Part;
use elbowroom_exchange::mesh::{write_glb, write_stl};
use elbowroom_workbench::file::built_in_shop;
use proptest::prelude::*;
use serde_json::Value;

use super::parts::{centreline, part, part_from, rows, system};

type Corner = [u32; 3];

/// The triangles of a binary STL file, each corner by the bits of its place.
fn triangles(bytes: &[u8]) -> Vec<[Corner; 3]> {
    let count = u32::from_le_bytes(bytes[80..84].try_into().unwrap()) as usize;
    assert_eq!(bytes.len(), 84 + 50 * count);
    let figure = |at: usize| u32::from_le_bytes(bytes[at..at + 4].try_into().unwrap());
    let corner = |at: usize| [figure(at), figure(at + 4), figure(at + 8)];
    (0..count).map(|index| 84 + 50 * index).map(|at| [corner(at + 12), corner(at + 24), corner(at + 36)]).collect()
}

/// The volume that triangles bound, mm³: the sum of the tetrahedra that they make with the origin (divergence theorem).
fn volume(triangles: &[[Corner; 3]]) -> f64 {
    let place = |corner: Corner| corner.map(|bits| f64::from(f32::from_bits(bits)));
    let signed = |[a, b, c]: [[f64; 3]; 3]| {
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
    };
    triangles.iter().map(|corners| signed(corners.map(place)) / 6.0).sum()
}

/// Every edge is run through as often one way as the other, so that there is neither a hole nor a face turned round.
fn is_closed(triangles: &[[Corner; 3]]) -> bool {
    let mut edges: HashMap<(Corner, Corner), i32> = HashMap::new();
    for [a, b, c] in triangles {
        for (from, to) in [(a, b), (b, c), (c, a)] {
            *edges.entry((*from, *to)).or_default() += 1;
            *edges.entry((*to, *from)).or_default() -= 1;
        }
    }
    edges.values().all(|balance| *balance == 0)
}

/// The metal of a tube, mm³ (Pappus; from memory).
fn metal(part: &Part) -> f64 {
    let (outer, inner) = (part.tube.od.mm() / 2.0, part.tube.od.mm() / 2.0 - part.tube.wall.mm());
    PI * (outer * outer - inner * inner) * centreline(part).length_mm()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn a_mesh_is_closed_and_holds_nearly_the_metal_of_the_tube(rows in rows()) {
        let drawn = part_from(rows.0, &rows.1, rows.2);
        let triangles = triangles(&write_stl(&system(vec![drawn.clone()]), "a.stl").unwrap());
        prop_assert!(is_closed(&triangles));
        let share = volume(&triangles) / metal(&drawn);
        prop_assert!((0.99..1.0005).contains(&share), "{share} of the metal");
    }
}

/// The head of a GLB file and its body.
fn opened(bytes: &[u8]) -> (Value, &[u8]) {
    let figure = |at: usize| u32::from_le_bytes(bytes[at..at + 4].try_into().unwrap()) as usize;
    assert_eq!((&bytes[..4], figure(4), figure(8)), (&b"glTF"[..], 2, bytes.len()));
    let head = 20 + figure(12);
    assert_eq!((&bytes[16..20], &bytes[head + 4..head + 8]), (&b"JSON"[..], &b"BIN\0"[..]));
    (serde_json::from_slice(&bytes[20..head]).unwrap(), &bytes[head + 8..])
}

#[test]
fn a_glb_file_stands_upright_in_metres() {
    let mut up = part(&[], 1500.0);
    up.path = part_from(
        elbowroom_geometry::Frame::along(
            elbowroom_geometry::Point3::new(0.0, 200.0, 0.0),
            elbowroom_geometry::Vector3::z(),
            elbowroom_geometry::Vector3::x(),
        )
        .unwrap(),
        &[],
        1500.0,
    )
    .path;
    let bytes = write_glb(&system(vec![up]), &built_in_shop(), "a.glb").unwrap();
    let (head, body) = opened(&bytes);
    assert_eq!(head["nodes"][0]["name"], "Downpipe");
    let accessor = &head["accessors"][0];
    let figure = |of: &Value, at: usize| of[at].as_f64().unwrap();
    assert!((figure(&accessor["max"], 1) - 1.5).abs() < 1e-6, "z of the drawing is up: {accessor}");
    assert!((figure(&accessor["min"], 2) + 0.23015).abs() < 5e-5, "y of the drawing comes towards nobody: {accessor}");
    let last = head["bufferViews"].as_array().unwrap().last().unwrap();
    let end = last["byteOffset"].as_u64().unwrap() + last["byteLength"].as_u64().unwrap();
    assert!(end as usize <= body.len() && end == head["buffers"][0]["byteLength"].as_u64().unwrap());
}

#[test]
fn a_glb_file_shows_where_something_is_found() {
    let materials = |part: Part| {
        let bytes = write_glb(&system(vec![part]), &built_in_shop(), "a.glb").unwrap();
        let (head, _) = opened(&bytes);
        let primitives = head["meshes"][0]["primitives"].as_array().unwrap().clone();
        let name = |primitive: &Value| {
            head["materials"][primitive["material"].as_u64().unwrap() as usize]["name"].as_str().unwrap().to_owned()
        };
        primitives.iter().map(name).collect::<Vec<_>>()
    };
    assert_eq!(materials(part(&[(600.0, 0.0, 45.0, 90.5)], 600.0)), ["tube"]);
    let short = materials(part(&[(600.0, 0.0, 90.0, 90.5), (10.0, 90.0, 90.0, 90.5)], 600.0));
    assert!(short.contains(&"tube".to_owned()) && short.contains(&"stop".to_owned()), "{short:?}");
}
