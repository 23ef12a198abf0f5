//! The materials library as it stands in a file of version 1, apart from the live [`Material`].

use elbowroom_bending::Guard;
use elbowroom_bending::material::{Certainty, Expansion, Figure, Material, MaterialFigures};
use elbowroom_bending::text::harmless;
use elbowroom_geometry::Refusal;
use elbowroom_geometry::units::format_any;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use super::format::parse;
use super::problem::FileProblem;

/// What the first field of these files holds.
pub(crate) const STAMP: &str = "elbowroom-materials/1";

/// Reads a library of version 1.
pub(crate) fn read(text: &str, file: &str) -> Result<Vec<Material>, FileProblem> {
    let library: MaterialsV1 = parse(text, file)?;
    Ok(library.materials.into_iter().map(|material| material.0).collect())
}

/// A whole library.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct MaterialsV1 {
    format: String,
    pub materials: Vec<MaterialV1>,
}

#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "MaterialFields", into = "MaterialFields")]
pub(crate) struct MaterialV1(pub Material);

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct MaterialFields {
    name: String,
    #[serde(default)]
    also: Vec<String>,
    modulus_gpa: Vec<FigureV1>,
    yield_mpa: Vec<FigureV1>,
    tensile_mpa: Vec<FigureV1>,
    elongation_percent: Vec<FigureV1>,
    density: Vec<FigureV1>,
    #[serde(default)]
    expansion: Vec<ExpansionV1>,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum CertaintyV1 {
    Published,
    Memory,
    Shop,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct FigureV1 {
    #[serde(deserialize_with = "above_nothing")]
    value: f64,
    certainty: CertaintyV1,
    source: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ExpansionV1 {
    from_c: f64,
    to_c: f64,
    per_million_kelvin: FigureV1,
}

impl From<FigureV1> for Figure {
    fn from(figure: FigureV1) -> Self {
        let certainty = match figure.certainty {
            CertaintyV1::Published => Certainty::Published,
            CertaintyV1::Memory => Certainty::Memory,
            CertaintyV1::Shop => Certainty::Shop,
        };
        Self { value: figure.value, certainty, source: harmless(&figure.source).into_owned() }
    }
}

impl From<Figure> for FigureV1 {
    fn from(figure: Figure) -> Self {
        let certainty = match figure.certainty {
            Certainty::Published => CertaintyV1::Published,
            Certainty::Memory => CertaintyV1::Memory,
            Certainty::Shop => CertaintyV1::Shop,
        };
        Self { value: figure.value, certainty, source: figure.source }
    }
}

/// A number above 0, refused on its own line.
fn above_nothing<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let value = f64::deserialize(deserializer)?;
    if value.is_finite() && value > 0.0 {
        return Ok(value);
    }
    Err(D::Error::custom(Refusal::new("the value", format_any(value), "a number above 0")))
}

impl TryFrom<MaterialFields> for MaterialV1 {
    type Error = Refusal;

    fn try_from(fields: MaterialFields) -> Result<Self, Refusal> {
        let list = |figures: Vec<FigureV1>| figures.into_iter().map(Figure::from).collect();
        let range = |range: ExpansionV1| Expansion {
            from_c: range.from_c,
            to_c: range.to_c,
            per_million_kelvin: range.per_million_kelvin.into(),
        };
        let figures = MaterialFigures {
            name: fields.name,
            also: fields.also,
            modulus_gpa: list(fields.modulus_gpa),
            yield_mpa: list(fields.yield_mpa),
            tensile_mpa: list(fields.tensile_mpa),
            elongation_percent: list(fields.elongation_percent),
            density: list(fields.density),
            expansion: fields.expansion.into_iter().map(range).collect(),
        };
        figures.sound().map(Self)
    }
}

impl From<MaterialV1> for MaterialFields {
    fn from(MaterialV1(material): MaterialV1) -> Self {
        let material = material.into_figures();
        let list = |figures: Vec<Figure>| figures.into_iter().map(FigureV1::from).collect();
        Self {
            name: material.name,
            also: material.also,
            modulus_gpa: list(material.modulus_gpa),
            yield_mpa: list(material.yield_mpa),
            tensile_mpa: list(material.tensile_mpa),
            elongation_percent: list(material.elongation_percent),
            density: list(material.density),
            expansion: material
                .expansion
                .into_iter()
                .map(|range| ExpansionV1 {
                    from_c: range.from_c,
                    to_c: range.to_c,
                    per_million_kelvin: range.per_million_kelvin.into(),
                })
                .collect(),
        }
    }
}
