//! Mesh files: what each kind holds, what independent readers and writers make of the same bytes, and what is refused.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::path::Path;

use elbowroom_bending::{MeshUnit, UpAxis};
use elbowroom_exchange::triangles::{MeshFrame, ReadMesh, mesh_of};
use elbowroom_geometry::Point3;
use elbowroom_workbench::file::FileProblem;

/// A pyramid of 30 × 40 with its tip 50 up, closed, turned outwards; no two coordinates of the tip are alike.
pub const POINTS: [[f64; 3]; 5] =
    [[0.0, 0.0, 0.0], [30.0, 0.0, 0.0], [30.0, 40.0, 0.0], [0.0, 40.0, 0.0], [15.0, 20.0, 50.0]];
pub const FACES: [[u32; 3]; 6] = [[0, 2, 1], [0, 3, 2], [0, 1, 4], [1, 2, 4], [2, 3, 4], [3, 0, 4]];

pub const IN_MM: MeshFrame = MeshFrame { unit: Some(MeshUnit::Millimetre), up: None };

pub fn read(bytes: &[u8], file: &str, frame: MeshFrame) -> Result<ReadMesh, FileProblem> {
    mesh_of(bytes, Path::new(file), frame)
}

pub fn obj() -> Vec<u8> {
    let points = POINTS.map(|[x, y, z]| format!("v {x} {y} {z}\n")).concat();
    let faces =
        "vt 0 0\nvn 0 0 1\nusemtl none\nf 1/1/1 4/1/1 3/1/1 2/1/1\nf 1//1 2//1 5//1\nf -4 -3 -1\nf 3 4 5\nf 4 1 5\n";
    format!("# pyramid\no pyramid\n{points}{faces}").into_bytes()
}

pub fn stl_text() -> Vec<u8> {
    let facets = FACES.map(|face| {
        let corners = face.map(|corner| {
            let [x, y, z] = POINTS[corner as usize];
            format!("      vertex {x:e} {y} {z}\n")
        });
        format!("  facet normal 0 0 1\n    outer loop\n{}    endloop\n  endfacet\n", corners.concat())
    });
    // Two bodies in one file, as programs write an assembly.
    let (one, two) = facets.split_at(2);
    format!("solid base\n{}endsolid base\nsolid sides\n{}endsolid\n", one.concat(), two.concat()).into_bytes()
}

/// Written by a library of its own.
pub fn stl_binary() -> Vec<u8> {
    let vertex = |corner: u32| stl_io::Vertex::new(POINTS[corner as usize].map(|at| at as f32));
    let normal = stl_io::Normal::new([0.0, 0.0, 1.0]);
    let triangles: Vec<_> = FACES.iter().map(|face| stl_io::Triangle { normal, vertices: face.map(vertex) }).collect();
    let mut bytes = Vec::new();
    stl_io::write_stl(&mut bytes, triangles.iter()).unwrap();
    bytes
}

fn data() -> Vec<u8> {
    // Metres, y up: what stands up in the drawing's z is y here, and its y is −z.
    let points = POINTS.iter().flat_map(|[x, y, z]| [x / 1000.0, z / 1000.0, -y / 1000.0]);
    let mut data: Vec<u8> = points.flat_map(|at| (at as f32).to_le_bytes()).collect();
    data.extend(FACES.iter().flatten().flat_map(|corner| (*corner as u16).to_le_bytes()));
    data
}

fn description(node: &str, buffer: &str) -> String {
    format!(
        r#"{{"asset":{{"version":"2.0"}},"scene":0,"scenes":[{{"nodes":[0]}}],"nodes":[{node}],
        "meshes":[{{"primitives":[{{"attributes":{{"POSITION":0}},"indices":1}}]}}],
        "accessors":[{{"bufferView":0,"componentType":5126,"count":5,"type":"VEC3"}},
        {{"bufferView":1,"componentType":5123,"count":18,"type":"SCALAR"}}],
        "bufferViews":[{{"buffer":0,"byteLength":60}},{{"buffer":0,"byteOffset":60,"byteLength":36}}],
        "buffers":[{{"byteLength":96{buffer}}}]}}"#
    )
}

pub fn glb_of(node: &str) -> Vec<u8> {
    let mut json = description(node, "").into_bytes();
    json.resize(json.len().next_multiple_of(4), b' ');
    let data = data();
    let length = 12 + 8 + json.len() + 8 + data.len();
    let mut bytes = b"glTF".to_vec();
    for number in [2, length as u32, json.len() as u32] {
        bytes.extend(number.to_le_bytes());
    }
    bytes.extend(b"JSON");
    bytes.extend(json);
    bytes.extend((data.len() as u32).to_le_bytes());
    bytes.extend(b"BIN\0");
    bytes.extend(data);
    bytes
}

pub fn glb() -> Vec<u8> {
    glb_of(r#"{"mesh":0}"#)
}

/// The points of a mesh in an order that does not depend on the file, to a thousandth.
fn sorted(mesh: &ReadMesh) -> Vec<[i64; 3]> {
    let mut points: Vec<_> =
        mesh.mesh.points().iter().map(|point| [0, 1, 2].map(|axis| (point[axis] * 1000.0).round() as i64)).collect();
    points.sort_unstable();
    points
}

fn wanted() -> Vec<[i64; 3]> {
    let mut points = POINTS.map(|point| point.map(|at| (at * 1000.0) as i64)).to_vec();
    points.sort_unstable();
    points
}

#[test]
fn every_kind_holds_the_same_pyramid() {
    let gltf = description(r#"{"mesh":0}"#, &{
        use base64_of::encoded;
        format!(r#","uri":"data:application/octet-stream;base64,{}""#, encoded(&data()))
    });
    let files: [(&str, Vec<u8>, MeshFrame); 5] = [
        ("pyramid.obj", obj(), IN_MM),
        ("pyramid.STL", stl_text(), IN_MM),
        ("pyramid.stl", stl_binary(), IN_MM),
        ("pyramid.glb", glb(), MeshFrame::default()),
        ("pyramid.gltf", gltf.into_bytes(), MeshFrame::default()),
    ];
    for (file, bytes, frame) in files {
        let read = read(&bytes, file, frame).unwrap();
        assert_eq!(sorted(&read), wanted(), "{file}");
        assert_eq!((read.mesh.triangles().len(), read.mesh.closed_triangles()), (6, 6), "{file}");
        assert!(read.mesh.holds(&Point3::new(14.0, 21.0, 5.0)) && !read.mesh.holds(&Point3::new(3.0, 3.0, 30.0)));
        assert_eq!(read.fingerprint.len(), 64);
        let of_gltf = (MeshUnit::Metre, UpAxis::Y);
        let of_rest = (MeshUnit::Millimetre, UpAxis::Z);
        assert_eq!((read.unit, read.up), if file.contains(".gl") { of_gltf } else { of_rest });
    }
}

/// Base64 as RFC 4648 writes it, apart from the library that reads it.
mod base64_of {
    pub fn encoded(bytes: &[u8]) -> String {
        const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
        assert!(bytes.len().is_multiple_of(3));
        let signs = bytes.chunks(3).flat_map(|three| {
            let bits = u32::from(three[0]) << 16 | u32::from(three[1]) << 8 | u32::from(three[2]);
            [18, 12, 6, 0].map(|shift| char::from(SIGNS[(bits >> shift & 63) as usize]))
        });
        signs.collect()
    }
}

#[test]
fn other_readers_find_the_same() {
    let ours = |bytes: &[u8], file: &str| sorted(&read(bytes, file, IN_MM).unwrap());
    let thousandths = |at: &f32| (f64::from(*at) * 1000.0).round() as i64;
    let bytes = stl_binary();
    let theirs = stl_io::read_stl(&mut std::io::Cursor::new(&bytes)).unwrap();
    let mut points: Vec<_> = theirs.vertices.iter().map(|vertex| vertex.0.map(|at| thousandths(&at))).collect();
    points.sort_unstable();
    assert_eq!((points, theirs.faces.len()), (ours(&bytes, "a.stl"), 6));
    let options = tobj::LoadOptions { triangulate: true, ..tobj::LoadOptions::default() };
    let no_materials = |_: &Path| Err(tobj::LoadError::GenericFailure);
    let (models, _) = tobj::load_obj_buf(&mut &obj()[..], &options, no_materials).unwrap();
    let mut points: Vec<[i64; 3]> = models
        .iter()
        .flat_map(|model| model.mesh.positions.chunks(3))
        .map(|point| [0, 1, 2].map(|axis| thousandths(&point[axis])))
        .collect();
    points.sort_unstable();
    points.dedup();
    assert_eq!(points, ours(&obj(), "a.obj"));
    let corners: usize = models.iter().map(|model| model.mesh.indices.len()).sum();
    assert_eq!(corners, 18);
}

#[test]
fn unit_and_axis_are_asked_for_where_a_file_does_not_say() {
    for file in ["a.obj", "a.stl"] {
        let said = read(&obj(), file, MeshFrame::default()).unwrap_err().to_string();
        assert!(said.contains("does not say in which unit it is drawn; name it: mm, in or m"), "{said}");
    }
    let inches = MeshFrame { unit: Some(MeshUnit::Inch), up: Some(UpAxis::Y) };
    let tip = read(&obj(), "a.obj", inches).unwrap().mesh.bounds().max;
    // The tip is z = 50 in a file whose y is up: the drawing's −y.
    assert!((tip.x - 762.0).abs() < 1e-9 && tip.y.abs() < 1e-9 && (tip.z - 1016.0).abs() < 1e-9, "{tip}");
    let x_up = read(&obj(), "a.obj", MeshFrame { up: Some(UpAxis::X), ..IN_MM }).unwrap();
    let size = x_up.mesh.bounds().size();
    assert_eq!((size.x, size.y, size.z), (40.0, 50.0, 30.0));
    // What a person says counts more than what the kind says.
    let said = MeshFrame { unit: Some(MeshUnit::Millimetre), up: None };
    assert!((read(&glb(), "a.glb", said).unwrap().mesh.bounds().max.z - 0.05).abs() < 1e-6);
    let said = read(&obj(), "a.ply", IN_MM).unwrap_err().to_string();
    assert_eq!(said, "a.ply: its name does not end as that of a mesh does; known are .stl, .obj, .glb, .gltf");
}

#[test]
fn nodes_lay_a_mesh_where_they_say() {
    // A quarter turn about y (metres, y up), then 0.1 along x; drawn twice as large.
    let root = 0.5_f64.sqrt();
    let node = format!(r#"{{"mesh":0,"scale":[2,2,2],"rotation":[0,{root},0,{root}],"translation":[0.1,0,0]}}"#);
    let turned = read(&glb_of(&node), "a.glb", MeshFrame::default()).unwrap();
    // (x, y, z) goes to (z, y, −x) there: the edge of 40 along −z comes to lie along −x, that of 30 along −z.
    let bounds = turned.mesh.bounds();
    let near = |a: f64, b: f64| (a - b).abs() < 1e-4;
    assert!(near(bounds.min.x, 20.0) && near(bounds.max.x, 100.0), "{bounds:?}");
    assert!(near(bounds.min.y, 0.0) && near(bounds.max.y, 60.0) && near(bounds.max.z, 100.0), "{bounds:?}");
    let matrix = r#"{"mesh":0,"matrix":[1,0,0,0, 0,1,0,0, 0,0,1,0, 0.5,0.25,0,1]}"#;
    let moved = read(&glb_of(matrix), "a.glb", MeshFrame::default()).unwrap();
    assert!(near(moved.mesh.bounds().min.x, 500.0) && near(moved.mesh.bounds().min.z, 250.0));
    let child = r#"{"children":[1],"translation":[1,0,0]},{"mesh":0,"translation":[0,1,0]}"#;
    let nested = read(&glb_of(child), "a.glb", MeshFrame::default()).unwrap();
    assert!(near(nested.mesh.bounds().min.x, 1000.0) && near(nested.mesh.bounds().min.z, 1000.0));
}

/// Each fault with the words that have to be in its refusal.
#[test]
fn broken_files_say_where() {
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    let (stl, obj, binary) = (text(stl_text()), text(obj()), stl_binary());
    let spoilt = |from: &str, to: &str| obj.replacen(from, to, 1).into_bytes();
    let mut lies = binary.clone();
    lies[80..84].copy_from_slice(&u32::MAX.to_le_bytes());
    let mut not_a_number = binary.clone();
    not_a_number[84 + 50 + 12..84 + 50 + 16].copy_from_slice(&f32::NAN.to_le_bytes());
    let longer = [glb(), vec![0]].concat();
    let json = |from: &str, to: &str| {
        let description = description(r#"{"mesh":0}"#, "").replacen(from, to, 1);
        let mut bytes = b"glTF".to_vec();
        let mut json = description.into_bytes();
        json.resize(json.len().next_multiple_of(4), b' ');
        let data = data();
        for number in [2, (28 + json.len() + data.len()) as u32, json.len() as u32] {
            bytes.extend(number.to_le_bytes());
        }
        bytes.extend([&b"JSON"[..], &json, &(data.len() as u32).to_le_bytes(), b"BIN\0", &data].concat());
        bytes
    };
    let cases: Vec<(&str, Vec<u8>, &[&str])> = vec![
        ("a.stl", stl.replacen("vertex 3e1", "vertex nan", 1).into_bytes(), &["line 5: vertex 2, x is NaN mm"]),
        ("a.stl", stl.replacen("vertex 3e1 ", "vertex 3e1", 1).into_bytes(), &["line 5", "vertex"]),
        ("a.stl", stl.replacen("endloop", "enloop", 1).into_bytes(), &["line 7: “enloop” stands here", "endloop"]),
        ("a.stl", stl.as_bytes()[..stl.len() / 2].to_vec(), &["line ", "ends too early"]),
        ("a.stl", stl.as_bytes()[..stl.len() - 10].to_vec(), &["ends too early"]),
        ("a.stl", lies, &["says that it holds 4294967295 triangles, and there is room for 6"]),
        ("a.stl", binary[..binary.len() - 1].to_vec(), &["it holds 6 triangles, and there is room for 5", "384 bytes"]),
        ("a.stl", not_a_number, &["vertex 4, x is NaN mm"]),
        ("a.stl", vec![], &["ends too early"]),
        ("a.obj", spoilt("v 30 40 0", "v 30 inf 0"), &["line 5: vertex 3, y is inf mm"]),
        ("a.obj", spoilt("v 30 40 0", "v 30 4o 0"), &["line 5: y of the vertex is “4o”, which is no number"]),
        ("a.obj", spoilt("v 30 40 0", "v 30 40"), &["line 5: z of the vertex is missing"]),
        (
            "a.obj",
            spoilt("f 3 4 5", "f 3 4 6"),
            &["line 14: a corner names vertex 6; it must be the number of one of the 5"],
        ),
        ("a.obj", spoilt("f 3 4 5", "f 3 4 0"), &["line 14: a corner names vertex 0"]),
        ("a.obj", spoilt("f 3 4 5", "f 3 4 -6"), &["line 14: a corner names vertex -6"]),
        ("a.obj", spoilt("f 3 4 5", "f 3 4 -9223372036854775808"), &["line 14: a corner names vertex"]),
        ("a.obj", spoilt("f 3 4 5", "f 3 4"), &["line 14: a face has 2 corners"]),
        ("a.obj", b"v 1 2 3\n".to_vec(), &["1 vertices and no faces"]),
        ("a.glb", longer, &["bytes long, and it is"]),
        ("a.glb", glb()[..40].to_vec(), &["bytes long, and it is 40"]),
        ("a.glb", b"glTF".to_vec(), &["ends after 4 bytes"]),
        ("a.glb", json("\"count\":5", "\"count\":6"), &["accessor 0 claims 6 values"]),
        ("a.glb", json("\"count\":18", "\"count\":18446744073709551615"), &["accessor 1 claims 18446744073709551615"]),
        ("a.glb", json("\"count\":18", "\"count\":17"), &["mesh 0 has 17 corners"]),
        ("a.glb", json("\"byteOffset\":60", "\"byteOffset\":62"), &["accessor 1 claims"]),
        ("a.glb", json("\"byteOffset\":60", "\"byteOffset\":0"), &["names vertex"]),
        ("a.glb", json("\"indices\":1", "\"indices\":9"), &["accessor 9 is not there"]),
        ("a.glb", json("\"mesh\":0", "\"mesh\":3"), &["mesh 3 is not there"]),
        ("a.glb", json("\"mesh\":0", "\"mesh\":0,\"children\":[0]"), &["nested more than 64 deep"]),
        (
            "a.glb",
            json("\"scene\":0,", "\"scene\":0,\"extensionsRequired\":[\"KHR_draco_mesh_compression\"],"),
            &["KHR_draco"],
        ),
        ("a.glb", json("\"byteLength\":96", "\"byteLength\":96,\"uri\":\"../secret.bin\""), &["lies in another file"]),
        ("a.glb", json("\"byteLength\":96", "\"byteLength\":97"), &["buffer 0 is to have 97 bytes, and there are 96"]),
        ("a.glb", json("\"type\":\"VEC3\"", "\"type\":\"VEC3\",\"sparse\":{}"), &["accessor 0 is sparse"]),
    ];
    for (file, bytes, wanted) in cases {
        let said = read(&bytes, file, if file.ends_with("glb") { MeshFrame::default() } else { IN_MM });
        let said = said.err().unwrap_or_else(|| panic!("{wanted:?} is taken")).to_string();
        for words in wanted {
            assert!(said.contains(words), "\"{words}\" is missing in: {said}");
        }
    }
}

/// A seeded stream of numbers (xorshift64*).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, below: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 33) as usize % below
    }
}

/// Hundreds of spoilt files of each kind: no panic, a refusal that can be shown, or a mesh whose triangles are all there.
#[test]
fn spoilt_files_are_read_or_refused() {
    let mut dice = Dice(20_261_201);
    let (mut taken, mut refused) = (0, 0);
    for (file, whole) in [("a.obj", obj()), ("a.stl", stl_text()), ("b.stl", stl_binary()), ("a.glb", glb())] {
        for _ in 0..600 {
            let mut bytes = whole.clone();
            for _ in 0..1 + dice.roll(4) {
                let at = dice.roll(bytes.len().max(1));
                match dice.roll(6) {
                    0 => bytes.truncate(at),
                    1 => bytes.iter_mut().skip(at).take(4).for_each(|byte| *byte = 0xff),
                    2 => bytes.insert(at.min(bytes.len()), b"0123456789-./ \n{}[]\"eE"[dice.roll(21)]),
                    3 if !bytes.is_empty() => drop(bytes.remove(at.min(bytes.len() - 1))),
                    4 => bytes.extend_from_within(at.min(bytes.len())..),
                    _ => bytes.iter_mut().skip(at).take(1).for_each(|byte| *byte ^= 1 << dice.roll(8)),
                }
            }
            match read(&bytes, file, IN_MM) {
                Ok(read) => {
                    taken += 1;
                    let points = read.mesh.points();
                    assert!(read.mesh.triangles().iter().flatten().all(|corner| (*corner as usize) < points.len()));
                    assert!(points.iter().all(|point| point.iter().all(|at| at.is_finite())));
                    assert!(
                        read.mesh.bytes() < 64 * bytes.len() + 4096,
                        "{} bytes of {}",
                        read.mesh.bytes(),
                        bytes.len()
                    );
                }
                Err(problem) => {
                    refused += 1;
                    let said = problem.to_string();
                    assert_eq!(elbowroom_bending::text::harmless(&said), said);
                }
            }
        }
    }
    assert!(taken > 100 && refused > 1000, "{taken} taken, {refused} refused");
}
