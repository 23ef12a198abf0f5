//! GLB, the binary form of glTF 2.0 (Khronos; ISO/IEC 12113; from memory): metres, y up. What the checks find is marked on
//! the tube in the colours of the window.

use std::collections::BTreeMap;

use elbowroom_bending::{Part, Severity, Shop, System, solve};
use elbowroom_workbench::file::FileProblem;
use elbowroom_workbench::{Colour, Theme, palette};
use serde_json::{Value, json};

use super::hollow::{Band, Hollow, hollow};
use crate::error::TextError;
use crate::sound_run::sound_run;

/// Places along the tube that lie nearer are one, mm.
const SAME_MM: f64 = 1e-3;

/// The GLB file of all tubes of a system, marked as a shop judges them. `file` is what the person calls it; it stands in
/// the errors.
///
/// # Errors
/// Says which tube has no solid, and why not.
pub fn write(system: &System, shop: &Shop, file: &str) -> Result<Vec<u8>, FileProblem> {
    bytes_of(system, shop).map_err(|error| error.in_file(file))
}

fn bytes_of(system: &System, shop: &Shop) -> Result<Vec<u8>, TextError> {
    let mut scene = Scene::default();
    for tube in system.tubes() {
        scene.tube(&tube.part, shop)?;
    }
    let materials = [None, Some(Severity::Note), Some(Severity::Caution), Some(Severity::Stop)].map(material);
    let nodes: Vec<usize> = (0..scene.nodes.len()).collect();
    let head = json!({
        "asset": { "version": "2.0", "generator": "Elbowroom" },
        "scene": 0,
        "scenes": [{ "name": system.title(), "nodes": nodes }],
        "nodes": scene.nodes,
        "meshes": scene.meshes,
        "materials": materials,
        "accessors": scene.accessors,
        "bufferViews": scene.views,
        "buffers": [{ "byteLength": scene.bytes.len() }],
    });
    packed(head.to_string().into_bytes(), scene.bytes)
}

/// The two chunks behind the head of the file, each filled up to a multiple of four bytes.
fn packed(mut head: Vec<u8>, mut body: Vec<u8>) -> Result<Vec<u8>, TextError> {
    head.resize(head.len().next_multiple_of(4), b' ');
    body.resize(body.len().next_multiple_of(4), 0);
    let length = |bytes: usize| {
        u32::try_from(bytes)
            .map(u32::to_le_bytes)
            .map_err(|_| TextError::whole("the tubes are too much for one GLB file", "write them one by one"))
    };
    let whole = length(12 + 8 + head.len() + 8 + body.len())?;
    let [head_length, body_length] = [length(head.len())?, length(body.len())?];
    let version = 2u32.to_le_bytes();
    Ok([&b"glTF"[..], &version, &whole, &head_length, b"JSON", &head, &body_length, b"BIN\0", &body].concat())
}

/// The materials by severity, in the order of [`bytes_of`].
fn material(severity: Option<Severity>) -> Value {
    let colours = palette(Theme::Light);
    let (name, colour) = severity.map_or(("tube", colours.tube), |grave| (grave.word(), colours.severity(grave)));
    let [red, green, blue] = linear(colour);
    let metallic = if severity.is_none() { 0.5 } else { 0.0 };
    json!({
        "name": name,
        "pbrMetallicRoughness": {
            "baseColorFactor": [red, green, blue, 1.0],
            "metallicFactor": metallic,
            "roughnessFactor": 0.45,
        },
    })
}

/// The colour in linear light, as glTF wants it (IEC 61966-2-1; from memory).
fn linear(colour: Colour) -> [f64; 3] {
    colour.rgb().map(|channel| {
        let share = f64::from(channel) / 255.0;
        if share <= 0.04045 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
    })
}

#[derive(Default)]
struct Scene {
    nodes: Vec<Value>,
    meshes: Vec<Value>,
    accessors: Vec<Value>,
    views: Vec<Value>,
    bytes: Vec<u8>,
}

impl Scene {
    fn tube(&mut self, part: &Part, shop: &Shop) -> Result<(), TextError> {
        let (run, outer_mm) = (sound_run(part)?, part.tube.od.mm() / 2.0);
        let marks = Marks::of(part, shop);
        let mesh = hollow(&run, outer_mm, outer_mm - part.tube.wall.mm(), &marks.edges())?;
        let position = self.positions(&mesh);
        let normals: Vec<[f32; 3]> =
            mesh.normals.iter().map(|normal| upright([normal.x, normal.y, normal.z])).collect();
        let normal = self.vectors(&normals, Value::Null, Value::Null);
        let mut of_material: BTreeMap<usize, Vec<u32>> = BTreeMap::new();
        for band in &mesh.bands {
            of_material.entry(marks.material_of(band)).or_default().extend(band.triangles.iter().flatten());
        }
        let mut primitives = Vec::new();
        for (material, indices) in of_material {
            let view = self.view(indices.iter().flat_map(|index| index.to_le_bytes()), 34963);
            let indices = self.accessor(json!({
                "bufferView": view, "componentType": 5125, "count": indices.len(), "type": "SCALAR",
            }));
            let attributes = json!({ "POSITION": position, "NORMAL": normal });
            primitives.push(json!({ "attributes": attributes, "indices": indices, "material": material }));
        }
        self.nodes.push(json!({ "name": part.name, "mesh": self.meshes.len() }));
        self.meshes.push(json!({ "name": part.name, "primitives": primitives }));
        Ok(())
    }

    fn positions(&mut self, mesh: &Hollow) -> usize {
        let metres = |value: f64| value / 1000.0;
        let places: Vec<[f32; 3]> = mesh.positions.iter().map(|at| upright([at.x, at.y, at.z].map(metres))).collect();
        let ends = |pick: fn(f32, f32) -> f32| {
            let folded = places.iter().copied().reduce(|a, b| [pick(a[0], b[0]), pick(a[1], b[1]), pick(a[2], b[2])]);
            json!(folded.unwrap_or_default())
        };
        self.vectors(&places, ends(f32::min), ends(f32::max))
    }

    fn vectors(&mut self, vectors: &[[f32; 3]], least: Value, most: Value) -> usize {
        let view = self.view(vectors.iter().flatten().flat_map(|value| value.to_le_bytes()), 34962);
        let mut accessor = json!({ "bufferView": view, "componentType": 5126, "count": vectors.len(), "type": "VEC3" });
        if !least.is_null() {
            accessor["min"] = least;
            accessor["max"] = most;
        }
        self.accessor(accessor)
    }

    fn view(&mut self, bytes: impl Iterator<Item = u8>, target: u32) -> usize {
        let from = self.bytes.len();
        self.bytes.extend(bytes);
        let length = self.bytes.len() - from;
        self.views.push(json!({ "buffer": 0, "byteOffset": from, "byteLength": length, "target": target }));
        self.views.len() - 1
    }

    fn accessor(&mut self, accessor: Value) -> usize {
        self.accessors.push(accessor);
        self.accessors.len() - 1
    }
}

/// A vector whose z points up, with its y up instead.
fn upright([x, y, z]: [f64; 3]) -> [f32; 3] {
    [x as f32, z as f32, -y as f32]
}

/// Where the checks find something, mm along the tube, and how grave it is.
struct Marks(Vec<(f64, f64, Severity)>);

impl Marks {
    fn of(part: &Part, shop: &Shop) -> Self {
        let solved = solve(part, shop);
        let found = solved.findings.iter().flat_map(|finding| {
            finding.places().flat_map(|place| {
                let (from, to) = (place.from_mm, place.to_mm);
                // What is said of the tube as a whole marks its ends.
                let stretches = if place.is_whole_tube() { vec![(from, from), (to, to)] } else { vec![(from, to)] };
                stretches.into_iter().map(|(from, to)| (from, to, finding.severity))
            })
        });
        Self(found.collect())
    }

    fn edges(&self) -> Vec<f64> {
        self.0.iter().flat_map(|(from, to, _)| [*from, *to]).filter(|edge| edge.is_finite()).collect()
    }

    /// The material of a band: that of the gravest mark that it lies on.
    fn material_of(&self, band: &Band) -> usize {
        let middle = (band.from_mm + band.to_mm) / 2.0;
        let on = self.0.iter().filter(|(from, to, _)| (from - SAME_MM..=to + SAME_MM).contains(&middle));
        match on.map(|(.., severity)| *severity).max() {
            None => 0,
            Some(Severity::Note) => 1,
            Some(Severity::Caution) => 2,
            Some(Severity::Stop) => 3,
        }
    }
}
