//! What is asked of each reader, whatever it is fed: it ends, it does not panic, it keeps to its memory, its refusal can
//! be shown to a person, and what it takes is written so that it reads the same again.

use elbowroom_bending::plan::plan;
use elbowroom_bending::text::harmless;
use elbowroom_bending::{End, MeshUnit, Part, Shop};
use elbowroom_exchange::triangles::{MeshFrame, mesh_of};
use elbowroom_exchange::{Document, Read, points_table, report};
use elbowroom_geometry::units::{LengthUnit, parse_angle, parse_length};
use elbowroom_workbench::file::{
    FileProblem, built_in_shop, read_materials, read_recovery, read_settings, read_shop, read_system, text_of,
    write_shop, write_system,
};
use elbowroom_workbench::measured_table::{Kind, read_measured};

/// What the person calls the file.
const FILE: &str = "fed.ron";

/// A file of a system or a part.
pub fn system(bytes: &[u8]) {
    let Some(read) = taken(text_of(bytes, FILE).and_then(|text| read_system(text, FILE))) else { return };
    let written = write_system(&read);
    let again = read_system(&written, FILE).expect("what was written reads");
    assert_eq!(written, write_system(&again), "what was written reads the same");
}

/// A shop file.
pub fn shop(bytes: &[u8]) {
    let Some(read) = taken(text_of(bytes, FILE).and_then(|text| read_shop(text, FILE))) else { return };
    let again = read_shop(&write_shop(&read), FILE).expect("what was written reads");
    assert_eq!(read, again, "what was written reads the same");
}

/// A library of materials.
pub fn materials(bytes: &[u8]) {
    taken(text_of(bytes, FILE).and_then(|text| read_materials(text, FILE)));
}

/// A recovery file.
pub fn recovery(bytes: &[u8]) {
    taken(text_of(bytes, FILE).and_then(|text| read_recovery(text, FILE)));
}

/// The settings.
pub fn settings(bytes: &[u8]) {
    let Some(read) = taken(text_of(bytes, FILE).and_then(|text| read_settings(text, FILE))) else { return };
    assert!((0.8..=2.0).contains(&read.scale), "an interface scale of {} cannot be read", read.scale);
}

/// A points table.
pub fn points_table(bytes: &[u8]) {
    let Some(read) = taken(text_of(bytes, FILE).and_then(|text| points_table::read(text, FILE))) else { return };
    let again = points_table::read(&points_table::write(&read), FILE).expect("what was written reads");
    assert_eq!(read, again, "what was written reads the same");
}

/// A STEP file.
pub fn step(bytes: &[u8]) {
    drawn_again(taken(elbowroom_exchange::step::read(bytes, FILE)));
}

/// A drawing.
pub fn dxf(bytes: &[u8]) {
    drawn_again(taken(elbowroom_exchange::dxf::read(bytes, FILE)));
}

/// What was read from another program is told in words that can be shown, and every format takes it or refuses it in such.
fn drawn_again(read: Option<Read>) {
    let Some(read) = read else { return };
    read.notes.iter().for_each(|note| shown(note));
    taken(elbowroom_exchange::dxf::write(&read.document, FILE));
    if let Document::System(system) = &read.document {
        taken(elbowroom_exchange::step::write(system, FILE));
        let written = write_system(system);
        read_system(&written, FILE).expect("what was written reads");
    }
}

/// Measured points.
pub fn measured_points(bytes: &[u8]) {
    measured(bytes, Kind::Points);
}

/// Measured bend rows.
pub fn measured_rows(bytes: &[u8]) {
    measured(bytes, Kind::Rows);
}

fn measured(bytes: &[u8], kind: Kind) {
    let Ok(text) = text_of(bytes, FILE) else { return };
    for unit in [LengthUnit::Millimetre, LengthUnit::Inch] {
        if let Err(problem) = read_measured(text, kind, unit) {
            shown(&problem.to_string());
        }
    }
}

/// A mesh of STL, text or binary.
pub fn mesh_stl(bytes: &[u8]) {
    mesh(bytes, "fed.stl");
}

/// A mesh of OBJ.
pub fn mesh_obj(bytes: &[u8]) {
    mesh(bytes, "fed.obj");
}

/// A mesh of binary glTF.
pub fn mesh_glb(bytes: &[u8]) {
    mesh(bytes, "fed.glb");
}

/// A mesh of glTF as JSON.
pub fn mesh_gltf(bytes: &[u8]) {
    mesh(bytes, "fed.gltf");
}

fn mesh(bytes: &[u8], file: &str) {
    let frame = MeshFrame { unit: Some(MeshUnit::Millimetre), up: None };
    let Some(read) = taken(mesh_of(bytes, std::path::Path::new(file), frame)) else { return };
    let points = read.mesh.points();
    for corner in read.mesh.triangles().iter().flatten() {
        assert!(points[*corner as usize].iter().all(|at| at.is_finite()), "a corner that is no place");
    }
    read.mesh.holds(&read.mesh.bounds().centre());
}

/// A length typed into a field.
pub fn length(bytes: &[u8]) {
    let Ok(text) = str::from_utf8(bytes) else { return };
    for unit in [LengthUnit::Millimetre, LengthUnit::Inch] {
        match parse_length(text, unit) {
            Ok(length) => assert!(length.mm().is_finite(), "{text:?} is no length"),
            Err(problem) => shown(&problem.to_string()),
        }
    }
}

/// An angle typed into a field.
pub fn angle(bytes: &[u8]) {
    let Ok(text) = str::from_utf8(bytes) else { return };
    match parse_angle(text) {
        Ok(angle) => assert!(angle.radians().is_finite(), "{text:?} is no angle"),
        Err(problem) => shown(&problem.to_string()),
    }
}

/// A part and a shop, parted by a line of four dashes, solved from both ends and reported: what a reader takes, the rest
/// of the program bears. Without a shop it is the built-in one.
pub fn part_in_shop(bytes: &[u8]) {
    let Ok(text) = text_of(bytes, FILE) else { return };
    let (part, shop) = text.split_once("\n----\n").unwrap_or((text, ""));
    let Ok(system) = read_system(part, FILE) else { return };
    let Ok(shop) = (if shop.is_empty() { Ok(built_in_shop()) } else { read_shop(shop, FILE) }) else { return };
    for tube in system.tubes() {
        for from in [End::Start, End::Finish] {
            let mut part = Part::clone(&tube.part);
            part.tooling.from = from;
            borne(&part, &shop);
        }
    }
}

fn borne(part: &Part, shop: &Shop) {
    let solved = elbowroom_bending::solve(part, shop);
    for length in &solved.straights_mm {
        assert!(length.is_finite(), "a straight of {length} mm");
    }
    assert!(solved.blank_length_mm.is_finite(), "a blank of {} mm", solved.blank_length_mm);
    report::to_json(part, shop, &solved).expect("a report is written");
    if let Ok(plan) = plan(part, shop) {
        let feeds: f64 = plan.program.steps.iter().map(|step| step.feed.mm()).sum();
        assert!(feeds.is_finite(), "feeds of {feeds} mm in all");
    }
}

/// What was read, if it was; a refusal must be fit to be shown.
fn taken<T>(read: Result<T, FileProblem>) -> Option<T> {
    read.map_err(|problem| shown(&problem.to_string())).ok()
}

/// A text for a person: there is one, and it can only be shown. Its lines are the program's own.
fn shown(text: &str) {
    assert!(!text.trim().is_empty(), "a refusal without a word");
    for line in text.lines() {
        assert_eq!(line, harmless(line), "a line that does more than be read");
    }
}
