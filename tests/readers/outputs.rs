//! Every demo part that is a tube, written in every format and opened by other programs' readers.

use std::f64::consts::PI;
use std::path::PathBuf;

use elbowroom_bending::{Part, System, SystemTube, TubeId};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Centreline, Element, ElementKind};
use elbowroom_workbench::file::demo_parts;
use serde_json::Value;

use super::found::{interpreter, run, write};

/// The metal of a tube, mm³: each cross-section has its middle on the centreline (Pappus).
fn metal(part: &Part) -> f64 {
    let (outer, inner) = (part.tube.od.mm() / 2.0, part.tube.od.mm() / 2.0 - part.tube.wall.mm());
    PI * (outer * outer - inner * inner) * Centreline::of(&part.path.bend_form().path).length_mm()
}

/// Straights and arcs that have a length.
fn run_of(part: &Part) -> Vec<Element> {
    let line = Centreline::of(&part.path.bend_form().path);
    line.elements().iter().filter(|element| element.length_mm > 1e-6).copied().collect()
}

/// Demo parts without overlapping arcs and fold-backs: those that there can be.
fn possible() -> Vec<Part> {
    let parts = demo_parts().map(|demo| demo.read().unwrap());
    let is_possible = |part: &Part| {
        let form = part.path.bend_form();
        form.problems.is_empty() && Centreline::of(&form.path).elements().iter().all(|element| element.length_mm >= 0.0)
    };
    parts.filter(is_possible).collect()
}

#[test]
fn other_programs_read_what_is_written() {
    let Some(python) = interpreter() else { return };
    let folder = tempfile::tempdir().unwrap();
    let parts = possible();
    assert!(parts.len() >= 12, "only {} demo parts can be", parts.len());
    let tubes = (1..).zip(&parts[..3]).map(|(id, part)| SystemTube {
        id: TubeId::new(id),
        hidden: false,
        part: part.clone().into(),
    });
    let whole = System::new("Hill climb", LengthUnit::Millimetre, tubes.collect(), TubeId::new(1)).unwrap();
    let mut files = vec![folder.path().join("told.json")];
    let file = |index: usize, ending: &str| folder.path().join(format!("{index}.{ending}"));
    for (index, part) in parts.iter().enumerate() {
        for ending in ["step", "dxf", "stl", "glb"] {
            write(&file(index, ending), &System::of(part.clone()));
            files.push(file(index, ending));
        }
    }
    let assembly = folder.path().join("whole.step");
    write(&assembly, &whole);
    files.push(assembly.clone());
    run(&python, "read_back.py", &files.iter().map(PathBuf::as_path).collect::<Vec<_>>());
    let told: Value = serde_json::from_slice(&std::fs::read(&files[0]).unwrap()).unwrap();
    let of = |file: PathBuf| &told[file.to_str().unwrap()];
    for (index, part) in parts.iter().enumerate() {
        solid(of(file(index, "step")), part);
        drawing(of(file(index, "dxf")), part);
        mesh(of(file(index, "stl")), part, 1.0);
        mesh(of(file(index, "glb")), part, 1e-9);
    }
    let whole = &told[assembly.to_str().unwrap()];
    assert_eq!(whole["solids"].as_array().unwrap().len(), 3, "{whole}");
    for name in parts[..3].iter().map(|part| part.name.as_str()).chain(["Hill climb"]) {
        assert!(whole["names"].as_array().unwrap().iter().any(|known| known == name), "{name}: {}", whole["names"]);
    }
    for (solid, part) in whole["solids"].as_array().unwrap().iter().zip(&parts) {
        is_the_tube(solid, part);
    }
}

fn solid(told: &Value, part: &Part) {
    let [solid] = told["solids"].as_array().unwrap().as_slice() else { panic!("{}: {told}", part.name) };
    assert_eq!(
        (&told["roots"], &told["names"][0], &told["colours"]),
        (&1.into(), &part.name.as_str().into(), &1.into())
    );
    is_the_tube(solid, part);
}

/// A valid closed solid of the right metal, every straight a cylinder and every bend a torus of its radius, twice.
fn is_the_tube(solid: &Value, part: &Part) {
    let name = &part.name;
    assert_eq!((&solid["valid"], &solid["closed"]), (&true.into(), &true.into()), "{name}");
    let share = solid["volume"].as_f64().unwrap() / metal(part);
    assert!((share - 1.0).abs() < 1e-9, "{name}: {share} of the metal");
    let run = run_of(part);
    let (outer, inner) = (part.tube.od.mm() / 2.0, part.tube.od.mm() / 2.0 - part.tube.wall.mm());
    let straights = run.iter().filter(|element| element.kind == ElementKind::Straight).count();
    let sorted = |mut figures: Vec<Vec<f64>>| {
        figures.sort_by(|one, other| one.partial_cmp(other).unwrap());
        figures
    };
    let seen = |kind: &str| {
        let faces = solid[kind].as_array().unwrap().iter();
        sorted(
            faces.map(|face| face.as_array().unwrap().iter().map(|value| value.as_f64().unwrap()).collect()).collect(),
        )
    };
    let radii = run.iter().filter_map(|element| match element.kind {
        ElementKind::Arc { radius_mm, .. } => Some(radius_mm),
        ElementKind::Straight => None,
    });
    let tori = sorted(radii.flat_map(|radius| [vec![radius, outer], vec![radius, inner]]).collect());
    let cylinders = sorted([vec![vec![outer]; straights], vec![vec![inner]; straights]].concat());
    for (kind, wanted) in [("tori", tori), ("cylinders", cylinders)] {
        let seen = seen(kind);
        assert_eq!(seen.len(), wanted.len(), "{name}: {kind}");
        let far = seen.iter().flatten().zip(wanted.iter().flatten()).map(|(one, other)| (one - other).abs());
        assert!(far.fold(0.0, f64::max) < 1e-9, "{name}: {kind} {seen:?}");
    }
    assert_eq!((seen("planes").len(), seen("others").len()), (2, 0), "{name}");
}

fn drawing(told: &Value, part: &Part) {
    assert_eq!(
        (&told["version"], &told["errors"], &told["fixes"]),
        (&"AC1009".into(), &0.into(), &0.into()),
        "{}",
        part.name
    );
    for layer in ["TUBE_IN_SPACE", "CENTRELINE", "OUTLINE", "DIMENSIONS", "NAMES"] {
        assert!(told["layers"].as_array().unwrap().iter().any(|known| known == layer), "{layer}");
    }
    let pieces = told["pieces"].as_array().unwrap();
    let run = run_of(part);
    assert_eq!(pieces.len(), run.len(), "{}", part.name);
    let place = |value: &Value| [0, 1, 2].map(|axis| value[axis].as_f64().unwrap());
    for element in &run {
        let ends = [element.start.origin, element.end().origin];
        // Kinds come sorted, so each is looked for by where it starts and ends.
        let found = pieces.iter().find(|piece| {
            let [from, to] = [place(&piece["from"]), place(&piece["to"])];
            let off = |end: usize, at: [f64; 3]| (ends[end] - elbowroom_geometry::Point3::from(at)).norm();
            off(0, from) < 1e-6 && off(1, to) < 1e-6
        });
        let piece = found.unwrap_or_else(|| panic!("{}: {element:?} is not drawn", part.name));
        if let ElementKind::Arc { radius_mm, angle_rad } = element.kind {
            assert!((piece["radius"].as_f64().unwrap() - radius_mm).abs() < 1e-9);
            assert!((piece["angle"].as_f64().unwrap() - angle_rad).abs() < 1e-9, "{}: {piece}", part.name);
        }
    }
}

fn mesh(told: &Value, part: &Part, unit: f64) {
    let name = &part.name;
    assert_eq!((&told["watertight"], &told["winding"]), (&true.into(), &true.into()), "{name}: {told}");
    let share = told["volume"].as_f64().unwrap() / metal(part) / unit;
    assert!((0.99..1.0005).contains(&share), "{name}: {share} of the metal");
}
