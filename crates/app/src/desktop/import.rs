//! Formats beside the program's own that open in the window and are exported from it: all of the registry.

use std::sync::Arc;

use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, Path, Shop, System, ToolingChoice, Tube};
use elbowroom_exchange::{Document, FORMATS, Format};
use elbowroom_geometry::VertexPath;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::{EXTENSION, FileProblem};
use elbowroom_workbench::{Exporter, Importer};

/// Every such format that is read.
pub fn importers() -> Vec<Importer> {
    others()
        .map(|format| Importer {
            extension: format.extension,
            read: Arc::new(move |bytes, shop| match (format.read)(bytes, "").map_err(without_file)? {
                Document::Points(path) => Ok(part_of(path, shop)),
                Document::System(system) => Ok(Part::clone(&system.active_tube().part)),
            }),
        })
        .collect()
}

/// Every such format that is written.
pub fn exporters() -> Vec<Exporter> {
    others()
        .map(|format| Exporter {
            name: format.name,
            extension: format.extension,
            write: Arc::new(move |part, file| {
                (format.write)(&Document::System(Box::new(System::of(part.clone()))), file)
            }),
        })
        .collect()
}

/// The extensions of such formats.
pub fn other_extensions() -> Vec<&'static str> {
    others().map(|format| format.extension).collect()
}

fn others() -> impl Iterator<Item = &'static Format> {
    FORMATS.iter().filter(|format| format.extension != EXTENSION)
}

/// A part of a points table. The table names no tube: the shop's tube for the table's radius is taken, and
/// the person changes it on the bench.
fn part_of(path: VertexPath, shop: &Shop) -> Part {
    Part {
        name: String::new(),
        note: String::new(),
        tube: tube_for(&path, shop),
        tooling: ToolingChoice::default(),
        path: Path::Vertices(path),
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    }
}

fn without_file(problem: FileProblem) -> String {
    let line = problem.line.map(|line| format!("line {line}: ")).unwrap_or_default();
    let right = if problem.right.is_empty() { String::new() } else { format!("; {}", problem.right) };
    format!("{line}{}{right}", problem.what)
}

/// The first tube of the shop that it has a die of this radius for, else its first tube, else a usual one.
fn tube_for(path: &VertexPath, shop: &Shop) -> Tube {
    let made_for = |tube: &&Tube| path.clr().first().is_some_and(|clr| shop.die_for(tube.od, *clr).is_some());
    let tube = shop.tubes.iter().find(made_for).or_else(|| shop.tubes.first());
    tube.cloned().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_geometry::Length;
    use elbowroom_workbench::file::built_in_shop;

    use super::*;

    fn read(text: &str) -> Result<Part, String> {
        let importers = importers();
        let csv = importers.iter().find(|importer| importer.extension == "csv").unwrap();
        (csv.read)(text.as_bytes(), &built_in_shop())
    }

    #[test]
    fn what_is_exported_opens_again() {
        let text = "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n400,0,0,120.6\n400,300.25,0,\n";
        let exporters = exporters();
        let csv = exporters.iter().find(|exporter| exporter.extension == "csv").unwrap();
        assert_eq!((csv.write)(&read(text).unwrap(), "a.csv").unwrap(), text.as_bytes());
        assert_eq!(exporters.len(), importers().len());
    }

    #[test]
    fn a_points_table_opens_on_the_tube_that_its_radius_is_bent_for() {
        let part = read("x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n400,0,0,120.6\n400,300,0,\n").unwrap();
        assert!(built_in_shop().die_for(part.tube.od, Length::from_mm(120.6)).is_some(), "{:?}", part.tube);
        assert_eq!(part.path.bend_form().path.rows().len(), 1);
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line_and_without_a_file_name() {
        let said = read("x_mm,y_mm,z_mm,clr_mm\n0,0,zero,\n").unwrap_err();
        assert!(said.starts_with("line 2: ") && said.contains("zero"), "{said}");
    }
}
