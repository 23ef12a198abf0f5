//! Pipes that OpenCASCADE wrote and centrelines that ezdxf wrote, as `write_inputs.py` makes them, read by Elbowroom.

use std::path::Path;

use elbowroom_exchange::{Document, read_document};
use elbowroom_geometry::Point3;
use tempfile::TempDir;

use super::found::{interpreter, length_mm, off_mm, run, tubes};

/// As in `write_inputs.py`.
const POINTS: [[f64; 3]; 5] =
    [[0.0, 0.0, 0.0], [400.0, 0.0, 0.0], [600.0, 300.0, 0.0], [600.0, 500.0, 350.0], [900.0, 600.0, 500.0]];
const CLR_MM: f64 = 120.6;
/// Its length, worked out with 30 digits by another program.
const LENGTH_MM: f64 = 1_473.396_606_899;

fn inputs() -> Option<TempDir> {
    let python = interpreter()?;
    let folder = tempfile::tempdir().unwrap();
    run(&python, "write_inputs.py", &[folder.path()]);
    Some(folder)
}

#[test]
fn what_other_programs_write_is_read() {
    let Some(folder) = inputs() else { return };
    pipes(folder.path());
    several(folder.path());
    what_cannot_be_used(folder.path());
    drawings(folder.path());
}

/// One pipe in every unit and schema, its faces whole, halved, fused, in pieces.
fn pipes(folder: &Path) {
    for name in [
        "pipe.step",
        "pipe-inch.step",
        "pipe-metre.step",
        "pipe-ap203.stp",
        "pipe-ap242.step",
        "halves.step",
        "fused.step",
        "pieces.step",
        "branch.step",
    ] {
        let system = tubes(&folder.join(name));
        let [tube] = system.tubes() else { panic!("{name} holds {} tubes", system.tubes().len()) };
        let part = &tube.part;
        let off = off_mm(&part.path, &POINTS, CLR_MM);
        assert!(off < 1e-6, "{name}: off by {off} mm");
        assert!((length_mm(&part.path) - LENGTH_MM).abs() < 1e-6, "{name}");
        assert!((part.tube.od.mm() - 60.3).abs() < 1e-6 && (part.tube.wall.mm() - 2.0).abs() < 1e-6, "{name}");
    }
    let moved = tubes(&folder.join("moved.step"));
    assert!((length_mm(&moved.tubes()[0].part.path) - LENGTH_MM).abs() < 1e-6);
}

/// Several tubes in one file: side by side, and placed by an assembly in an assembly.
fn several(folder: &Path) {
    let two = tubes(&folder.join("two.step"));
    assert_eq!(two.tubes().len(), 2);
    let u = two.tubes()[1].part.path.bend_form().path;
    assert!((u.rows()[0].angle.degrees() - 200.0).abs() < 1e-9 && (u.rows()[0].clr.mm() - 80.0).abs() < 1e-6);
    assert!((u.rows()[0].straight.mm() - 200.0).abs() < 1e-6 && (u.tail().mm() - 150.0).abs() < 1e-6);
    for name in ["assembly.step", "assembly-halves.step"] {
        let system = tubes(&folder.join(name));
        let names: Vec<&str> = system.tubes().iter().map(|tube| tube.name()).collect();
        assert_eq!(names, ["Downpipe", "Downpipe 2", "Downpipe 3"], "{name}");
        // As it is drawn; turned by 90° about z and moved; turned by 30° about y, raised, turned by 45° about x, moved.
        let turned = |[x, y, z]: [f64; 3]| [100.0 - y, -50.0 + x, 25.0 + z];
        let inner = |[x, y, z]: [f64; 3]| {
            let (sin, cos) = 30f64.to_radians().sin_cos();
            let [x, y, z] = [x * cos + z * sin, y, 700.0 - x * sin + z * cos];
            let half = 0.5f64.sqrt();
            [x - 300.0, (y - z) * half, (y + z) * half]
        };
        let places: [&dyn Fn([f64; 3]) -> [f64; 3]; 3] = [&|point| point, &turned, &inner];
        for (tube, place) in system.tubes().iter().zip(places) {
            let off = off_mm(&tube.part.path, &POINTS.map(place), CLR_MM);
            assert!(off < 1e-6, "{name}, {}: off by {off} mm", tube.name());
        }
    }
}

fn what_cannot_be_used(folder: &Path) {
    let refused = |name: &str| read_document(&folder.join(name)).unwrap_err().to_string();
    let spline = refused("spline.step");
    assert!(spline.contains("no bent tube") && spline.contains("free-form (spline)"), "{spline}");
    let block = refused("box.step");
    assert!(block.contains("no bent tube") && block.contains("flat faces only"), "{block}");
    let branch = read_document(&folder.join("branch.step")).unwrap();
    assert!(branch.notes.iter().any(|note| note.contains("branch")), "{:?}", branch.notes);
    let rod = read_document(&folder.join("rod.step")).unwrap();
    assert!(rod.notes.iter().any(|note| note.contains("without a bore (OD 60.3 mm)")), "{:?}", rod.notes);
    let Document::Lines(lines) = rod.document else { panic!("a rod has no wall") };
    assert!(off_mm(&lines[0].path, &POINTS, CLR_MM) < 1e-6);
}

fn drawings(folder: &Path) {
    let line = |name: &str| match read_document(&folder.join(name)).unwrap_or_else(|problem| panic!("{problem}")) {
        read if matches!(read.document, Document::System(_)) => panic!("{name} knows no tube"),
        read => match read.document {
            Document::Lines(mut lines) if lines.len() == 1 => (lines.remove(0), read.notes),
            other => panic!("{name}: {other:?}"),
        },
    };
    for name in ["chain-R12", "chain-R2000", "chain-R2000-binary", "chain-R2018", "chain-R2018-binary"] {
        let (line, notes) = line(&format!("{name}.dxf"));
        let off = off_mm(&line.path, &POINTS, CLR_MM);
        assert!(off < 1e-6, "{name}: off by {off} mm");
        assert!(notes.iter().any(|note| note.contains("1 of the kind TEXT")), "{name}: {notes:?}");
        assert_eq!(notes.iter().any(|note| note.contains("names no unit")), name == "chain-R12", "{name}: {notes:?}");
    }
    let (sharp, notes) = line("polyline.dxf");
    assert!(off_mm(&sharp.path, &POINTS, 0.0) < 1e-9);
    assert!(notes.iter().any(|note| note.contains("3 corners have no arc")), "{notes:?}");
    for name in ["u-R12.dxf", "u-R12-binary.dxf"] {
        let path = line(name).0.path.bend_form().path;
        assert!((path.rows()[0].angle.degrees() - 180.0).abs() < 1e-9, "{name}");
        assert!((path.rows()[0].clr.mm() - 80.0).abs() < 1e-9, "{name}");
        let end = elbowroom_geometry::Centreline::of(&path).end().origin;
        assert!((end - Point3::new(50.0, 160.0, 0.0)).norm() < 1e-9, "{name}: {end}");
    }
}
