//! Mass and material of the part, with every figure known of it and where it comes from.

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::material::{Figure, Material};
use elbowroom_bending::{Part, Shop, Solved};
use elbowroom_geometry::units::format_number;

use super::group::{Group, Row};

/// The groups of the part.
pub(super) fn groups(part: &Part, shop: &Shop, solved: &Solved) -> Vec<Group> {
    vec![mass(part, solved), material(part, shop)]
}

fn mass(part: &Part, solved: &Solved) -> Group {
    let Some(mass) = &solved.mass else {
        return Group {
            title: "Mass",
            rows: Vec::new(),
            note: format!("The shop knows no density of {}.", part.tube.material),
            open: true,
        };
    };
    let row = |name: &str, kilograms: f64, decimals: usize, unit: &str| {
        let value = format!("{} {unit}", format_number(kilograms, decimals));
        Row::new(name, value, mass.certainty.into(), "by the density of the material, without tolerances")
    };
    Group {
        title: "Mass",
        rows: vec![
            row("Part", mass.part_kg, 2, "kg"),
            row("Blank", mass.blank_kg, 2, "kg"),
            row("Tube", mass.per_metre_kg, 3, "kg/m"),
        ],
        note: String::new(),
        open: true,
    }
}

fn material(part: &Part, shop: &Shop) -> Group {
    let title = "Material, and where its figures come from";
    let Some(material) = shop.material(&part.tube.material) else {
        let note = format!(
            "The shop does not know {}: springback, stretch and mass go unchecked. Choose a known material on the bench, \
             or put it into the shop file.",
            part.tube.material
        );
        return Group { title, rows: Vec::new(), note, open: true };
    };
    Group {
        title,
        rows: rows(material),
        note: format!(
            "{}: the first figure of each kind is used; the others show where sources differ.",
            material.name
        ),
        open: false,
    }
}

fn rows(material: &Material) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut add = |name: &str, unit: &str, decimals: usize, figures: &[Figure]| {
        for (index, figure) in figures.iter().enumerate() {
            let used = if index == 0 { "" } else { ", another source" };
            let value = format!("{} {unit}", format_number(figure.value, decimals));
            rows.push(
                Row::new(format!("{name}{used}"), value, Ground::from(figure.certainty), figure.source.as_str())
                    .noted(),
            );
        }
    };
    add("Modulus", "GPa", 1, &material.modulus_gpa);
    add("Yield", "MPa", 0, &material.yield_mpa);
    add("Tensile", "MPa", 0, &material.tensile_mpa);
    add("Elongation", "%", 0, &material.elongation_percent);
    add("Density", "g/cm³", 2, &material.density);
    for expansion in &material.expansion {
        let name = format!("Expansion, {:.0} to {:.0} °C", expansion.from_c, expansion.to_c);
        let figure = &expansion.per_million_kelvin;
        let value = format!("{} × 10⁻⁶/K", format_number(figure.value, 1));
        rows.push(Row::new(name, value, figure.certainty.into(), figure.source.as_str()).noted());
    }
    rows
}
