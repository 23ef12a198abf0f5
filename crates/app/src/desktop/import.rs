//! Formats that open in the window beside the program's own.

use elbowroom_bending::{ExtraStock, Nodes, Part, Path, Shop, ToolingChoice, Tube};
use elbowroom_exchange::points_table;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Length, VertexPath};
use elbowroom_workbench::Importer;
use elbowroom_workbench::file::FileProblem;

/// Every such format.
pub fn importers() -> Vec<Importer> {
    vec![Importer { extension: "csv", read: read_points_table }]
}

/// A part of a points table. The table names no tube: the shop's tube for the table's radius is taken, and
/// the person changes it on the bench.
fn read_points_table(text: &str, shop: &Shop) -> Result<Part, String> {
    let path = points_table::read(text, "").map_err(without_file)?;
    Ok(Part {
        name: String::new(),
        note: String::new(),
        tube: tube_for(&path, shop),
        tooling: ToolingChoice::default(),
        path: Path::Vertices(path),
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        units: LengthUnit::Millimetre,
    })
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
    tube.cloned().unwrap_or_else(|| Tube::usual(Length::from_mm(50.8), Length::from_mm(1.5)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_workbench::file::built_in_shop;

    use super::*;

    #[test]
    fn a_points_table_opens_on_the_tube_that_its_radius_is_bent_for() {
        let part = read_points_table("x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n400,0,0,120.6\n400,300,0,\n", &built_in_shop());
        let part = part.unwrap();
        assert!(built_in_shop().die_for(part.tube.od, Length::from_mm(120.6)).is_some(), "{:?}", part.tube);
        assert_eq!(part.path.bend_form().path.rows().len(), 1);
    }

    #[test]
    fn what_is_wrong_is_told_with_its_line_and_without_a_file_name() {
        let said = read_points_table("x_mm,y_mm,z_mm,clr_mm\n0,0,zero,\n", &built_in_shop()).unwrap_err();
        assert!(said.starts_with("line 2: ") && said.contains("zero"), "{said}");
    }
}
