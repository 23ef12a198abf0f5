//! Every number of every file in turn.

use std::ops::Range;

use elbowroom_bending::first_off::piece::Piece;
use elbowroom_bending::plan::plan;
use elbowroom_bending::specimen::{part, part_along, row, shop, trial};
use elbowroom_bending::{Part, Path, Shop};
use elbowroom_exchange::points_table;
use elbowroom_geometry::units::{LengthUnit, format_any};
use elbowroom_workbench::file::{
    built_in_materials, built_in_shop, demo_parts, read_materials, read_part, read_shop, read_system, write_shop,
    write_system,
};
use elbowroom_workbench::measured_table::{Kind, read_measured};

use super::{EXTREMES, numbers, worked};

fn museum(name: &str) -> String {
    std::fs::read_to_string(format!("{}/../../tests/museum/{name}.ron", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

/// Puts every extreme in place of every number, and counts what is refused and what is worked out.
fn each(text: &str, places: &[Range<usize>], mut read: impl FnMut(&str) -> Result<(), String>) {
    let (mut refused, mut taken, mut wrong) = (0, 0, Vec::new());
    assert!(!places.is_empty());
    for place in places {
        for value in EXTREMES {
            let spoilt = numbers::with(text, place, value);
            let told = || format!("{} {value:?}", numbers::name(text, place));
            let outcome = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| read(&spoilt)));
            match outcome {
                Err(_) => wrong.push(told()),
                Ok(Ok(())) => taken += 1,
                Ok(Err(said)) => {
                    refused += 1;
                    // The smallest of all degrees is no radians at all.
                    let is_said = value == 5e-324 && said.contains(" is 0")
                        || said.contains(&format_any(value))
                        || said.contains(&format!("{value:?}"));
                    let says_right = said.contains("must") || said.contains("write ");
                    if !(said.contains("line ") && says_right && (is_said || says_another(&said))) {
                        wrong.push(format!("{}: {said}", told()));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "worked out wrongly, as said above:\n{}", wrong.join("\n"));
    assert!(refused > 0 && taken > 0, "{refused} refused, {taken} taken");
}

/// Whether a refusal is about a figure beside the one that was changed, or about how many there are.
fn says_another(said: &str) -> bool {
    [
        "twice",
        "number of",
        "the stretch is",
        "half the outside diameter",
        "mark-free bite",
        "to a higher",
        "near the set angle",
    ]
    .iter()
    .any(|words| said.contains(words))
}

/// A part whose every choice is made by hand, so that none of its numbers is left out.
fn part_texts() -> Vec<String> {
    let demos = demo_parts().filter(|demo| ["seam-outside", "just-enough"].contains(&demo.name));
    let written = ["part-v1-bends", "part-v1-pieces", "system-v1"].map(museum);
    let raised = written.iter().map(|text| write_system(&read_system(text, "a").unwrap()));
    demos.map(|demo| demo.text().to_owned()).chain(raised).collect()
}

#[test]
fn parts_and_systems() {
    let shop = built_in_shop();
    for text in part_texts() {
        each(&text, &numbers::of_native(&text), |text| {
            let system = read_system(text, "a").map_err(|problem| problem.to_string())?;
            assert_eq!(read_system(&write_system(&system), "a").as_ref(), Ok(&system), "written otherwise");
            system.tubes().iter().for_each(|tube| worked::out(&tube.part, &shop));
            Ok(())
        });
    }
}

/// Two bends on the die of the museum's shop, one of them tight.
fn for_museum() -> [Part; 2] {
    [
        part(vec![row(200.0, 0.0, 90.0), row(60.0, 45.0, 180.0), row(130.0, -90.0, 20.0)], 120.0).unwrap(),
        part(vec![row(20.0, 0.0, 185.0)], 5.0).unwrap(),
    ]
}

fn shop_read(text: &str) -> Result<(), String> {
    let shop = read_shop(text, "a").map_err(|problem| problem.to_string())?;
    assert_eq!(read_shop(&write_shop(&shop), "a").as_ref(), Ok(&shop), "written otherwise");
    for_museum().iter().for_each(|part| worked::out(part, &shop));
    Ok(())
}

#[test]
fn shops() {
    let line = museum("shop-v2").replacen("line: None", "line: (a_deg: 0.7, b: 0.02)", 1);
    for text in [museum("shop-v1"), museum("shop-v2"), line] {
        each(&text, &numbers::of_native(&text), shop_read);
    }
}

#[test]
fn materials() {
    let text = include_str!("../../../../assets/materials.ron");
    // Those of the material that the parts are of; the others are read in the same way.
    let from = text.find("304 stainless").unwrap();
    let to = from + text[from..].find("name:").unwrap();
    let places: Vec<_> = numbers::of_native(text).into_iter().filter(|at| (from..to).contains(&at.start)).collect();
    each(text, &places, |text| {
        let materials = read_materials(text, "a").map_err(|problem| problem.to_string())?;
        let shop = Shop { materials, ..shop() };
        for_museum().iter().for_each(|part| worked::out(part, &shop));
        Ok(())
    });
    assert!(built_in_materials().len() > 3);
}

#[test]
fn points_tables() {
    let text = "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n300,0,0,76.2\n300,280,0,76.2\n450,280,150,76.2\n700,280,150,\n";
    let shop = shop();
    each(text, &numbers::of_table(text), |text| {
        let path = points_table::read(text, "a").map_err(|problem| problem.to_string())?;
        worked::out(&part_along(Path::Vertices(path)), &shop);
        Ok(())
    });
}

#[test]
fn measured_tables() {
    let shop = shop();
    let drawn = part(vec![row(200.0, 0.0, 90.0), row(160.0, 45.0, 180.0), row(130.0, -90.0, 20.0)], 220.0).unwrap();
    let plan = plan(&drawn, &shop).unwrap();
    let rows = "straight_mm,rotation_deg,angle_deg\n200,0,90\n160,45,180\n130,-90,20\n220\n";
    let points = "x_mm,y_mm,z_mm\n0,0,0\n276,0,0\n276,80,100\n200,180,180\n100,280,150\n50,300,200\n";
    for text in [rows, points] {
        each(text, &numbers::of_table(text), |text| {
            let measured = read_measured(text, Kind::Points, LengthUnit::Millimetre);
            let measured = measured.map_err(|problem| problem.to_string())?;
            let mut part = drawn.clone();
            part.pieces = vec![Piece::bent_by(&plan, &plan.program, 0, measured).map_err(|refusal| refusal.to_string())?];
            worked::out(&part, &shop);
            Ok(())
        });
    }
}

#[test]
fn a_single_part_is_read_like_a_system_of_one() {
    let text = museum("part-v1-bends");
    for place in numbers::of_native(&text) {
        for value in EXTREMES {
            let text = numbers::with(&text, &place, value);
            let (one, of_one) = (read_part(&text, "a"), read_system(&text, "a"));
            assert_eq!(one.map(drop), of_one.map(drop), "{text}");
        }
    }
    assert!(trial(90.0, 88.0).set > trial(90.0, 88.0).measured);
}
