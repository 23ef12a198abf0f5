//! Formats beside the program's own that open in the window and are exported from it: all of the registry.

use std::sync::Arc;

use elbowroom_bending::{ExtraStock, Keep, Nodes, Part, Shop, System, SystemTube, ToolingChoice, Tube, TubeId};
use elbowroom_exchange::{Document, FORMATS, Format, Line};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::FileProblem;
use elbowroom_workbench::{Exporter, Imported, Importer};

/// Every such format that is read, once for each of its extensions.
pub fn importers() -> Vec<Importer> {
    others()
        .filter_map(|format| Some((format.extensions, format.read?)))
        .flat_map(|(extensions, read)| extensions.iter().map(move |extension| (*extension, read)))
        .map(|(extension, read)| Importer {
            extension,
            read: Arc::new(move |bytes, shop| {
                let read = read(bytes, "").map_err(without_file)?;
                let system = match read.document {
                    Document::Lines(lines) => of_lines(lines, shop)?,
                    Document::System(system) => *system,
                };
                Ok(Imported { system, notes: read.notes })
            }),
        })
        .collect()
}

/// Every such format that is written, once for each of its extensions.
pub fn exporters() -> Vec<Exporter> {
    others()
        .filter_map(|format| Some((format, format.write?)))
        .flat_map(|(format, write)| format.extensions.iter().map(move |extension| (format.name, *extension, write)))
        .map(|(name, extension, write)| Exporter {
            name,
            extension,
            write: Arc::new(move |part, shop, file| {
                write(&Document::System(Box::new(System::of(part.clone()))), shop, file)
            }),
        })
        .collect()
}

/// The extensions of such formats that are written.
pub fn exported_extensions() -> Vec<&'static str> {
    others().filter(|format| format.write.is_some()).flat_map(|format| format.extensions).copied().collect()
}

fn others() -> impl Iterator<Item = &'static Format> {
    FORMATS.iter().filter(|format| !format.is_native())
}

/// Parts of centrelines. They name no tube: the shop's tube for the radius of each is taken, and the person changes it on
/// the bench.
fn of_lines(lines: Vec<Line>, shop: &Shop) -> Result<System, String> {
    let part_of = |line: Line| Part {
        name: line.name,
        note: String::new(),
        tube: tube_for(&line.path, shop),
        tooling: ToolingChoice::default(),
        path: line.path,
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    };
    let tubes = (1..).zip(lines).map(|(number, line)| SystemTube {
        id: TubeId::new(number),
        hidden: false,
        part: part_of(line).into(),
    });
    System::new("", LengthUnit::Millimetre, tubes.collect(), TubeId::new(1)).map_err(|refusal| refusal.to_string())
}

fn without_file(problem: FileProblem) -> String {
    let line = problem.line.map(|line| format!("line {line}: ")).unwrap_or_default();
    let right = if problem.right.is_empty() { String::new() } else { format!("; {}", problem.right) };
    format!("{line}{}{right}", problem.what)
}

/// The first tube of the shop that it has a die of this radius for, else its first tube, else a usual one.
fn tube_for(path: &elbowroom_bending::Path, shop: &Shop) -> Tube {
    let form = path.bend_form().path;
    let clr: Option<Length> = form.rows().iter().map(|row| row.clr).find(|clr| clr.mm() > 0.0);
    let made_for = |tube: &&Tube| clr.is_some_and(|clr| shop.die_for(tube.od, clr).is_some());
    let tube = shop.tubes.iter().find(made_for).or_else(|| shop.tubes.first());
    tube.cloned().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_workbench::file::built_in_shop;

    use super::*;

    fn read(text: &str) -> Result<Part, String> {
        let importers = importers();
        let csv = importers.iter().find(|importer| importer.extension == "csv").unwrap();
        let imported = (csv.read)(text.as_bytes(), &built_in_shop())?;
        Ok(Part::clone(&imported.system.active_tube().part))
    }

    #[test]
    fn what_is_exported_opens_again() {
        let text = "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n400,0,0,120.6\n400,300.25,0,\n";
        let exporters = exporters();
        let csv = exporters.iter().find(|exporter| exporter.extension == "csv").unwrap();
        let part = read(text).unwrap();
        assert_eq!((csv.write)(&part, &built_in_shop(), "a.csv").unwrap(), text.as_bytes());
        for ending in ["step", "stp"] {
            let exporter = exporters.iter().find(|exporter| exporter.extension == ending).unwrap();
            let bytes = (exporter.write)(&part, &built_in_shop(), "a").unwrap();
            let importer = importers().into_iter().find(|importer| importer.extension == ending).unwrap();
            let imported = (importer.read)(&bytes, &built_in_shop()).unwrap();
            assert_eq!(imported.system.active_tube().part.path, part.path);
            assert!(!imported.notes.is_empty(), "the material is taken for granted");
        }
        assert!(importers().iter().all(|importer| !["stl", "glb"].contains(&importer.extension)));
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
