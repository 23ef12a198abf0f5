//! Parts to be printed: the demo parts, and tubes of any number of bends.

use std::path::PathBuf;

use elbowroom_bending::specimen::{part, row};
use elbowroom_bending::{Part, Shop};
use elbowroom_exchange::sheet::{Paper, Sheet, SheetOptions};
use elbowroom_exchange::{Document, read_document};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::built_in_shop;

/// Every demo part.
pub fn demo_parts() -> Vec<Part> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../demo-parts");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files.retain(|file| !file.ends_with("expected.ron"));
    let parts: Vec<Part> = files
        .iter()
        .flat_map(|file| match read_document(file).unwrap().document {
            Document::System(system) => system.tubes().iter().map(|tube| Part::clone(&tube.part)).collect::<Vec<_>>(),
            Document::Lines(_) => Vec::new(),
        })
        .collect();
    assert!(parts.len() > 12);
    parts
}

/// A tube of so many bends that wanders through space, on straights that are now and then too short to be clamped.
pub fn winding(bends: usize) -> Part {
    let rows = (0..bends).map(|bend| {
        let straight = [180.0, 260.0, 320.0, 95.0, 210.0][bend % 5];
        let angle = [30.0, 45.0, 90.0, 60.0, 22.5, 15.0][bend % 6];
        row(straight, [0.0, 90.0, -60.0, 135.0, -120.0, 180.0, 10.0][bend % 7], angle)
    });
    let mut part = part(rows.collect(), 240.0).unwrap();
    part.name = format!("Winding tube of {bends}");
    part
}

pub fn shop() -> Shop {
    built_in_shop()
}

pub fn options(paper: Paper, units: LengthUnit) -> SheetOptions {
    SheetOptions {
        paper,
        units: Some(units),
        templates: true,
        customer: "Hill-climb club".into(),
        revision: "B".into(),
        drawn_by: "Own workshop".into(),
        date: "2026-12-01".into(),
    }
}

pub fn sheet(part: &Part, options: &SheetOptions) -> Sheet {
    Sheet::of(&part.name, std::slice::from_ref(part), &shop(), "built in", options).unwrap()
}

/// In millimetres on A4.
pub fn plain(part: &Part) -> Sheet {
    sheet(part, &options(Paper::A4, LengthUnit::Millimetre))
}

/// Every text of a sheet.
pub fn texts(sheet: &Sheet) -> Vec<String> {
    sheet.pages.iter().flat_map(|page| page.labels().map(|label| label.text.clone()).collect::<Vec<_>>()).collect()
}

/// All of it as one line.
pub fn text(sheet: &Sheet) -> String {
    texts(sheet).join(" ")
}
