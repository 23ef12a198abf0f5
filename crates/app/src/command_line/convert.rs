//! `elbowroom convert`: between part and points table.

use std::path::Path;

use elbowroom_bending::text::{harmless, shown_path};
use elbowroom_bending::{ExtraStock, Nodes, Part, Path as Centreline, System, ToolingChoice, Tube};
use elbowroom_exchange::{Document, format_of, read_document, write_document};
use elbowroom_geometry::VertexPath;
use elbowroom_geometry::units::LengthUnit;

use super::arguments::Convert;
use super::{Failure, Outcome, output, shop, subject};

/// Reads one form and writes the other.
pub fn run(arguments: &Convert) -> Result<Outcome, Failure> {
    let (from, to) = (&arguments.from, &arguments.to);
    let (read_as, write_as) = (format_of(from)?, format_of(to)?);
    if read_as.extension == write_as.extension {
        return Err(Failure::NothingToConvert { from: from.clone(), to: to.clone(), format: read_as.name });
    }
    let document = read_document(from)?;
    let (document, hint) = match document {
        Document::Points(path) => {
            let size = arguments.tube.as_ref().ok_or_else(|| Failure::NoTube(from.clone()))?;
            let shop = shop::chosen(None)?;
            let part = part_of_points(to, path, size.kept_by(&shop.shop));
            let system = System::of(part);
            subject::only_tube(from, &system, arguments.only.as_deref())?;
            (Document::System(Box::new(system)), String::new())
        }
        Document::System(system) => {
            let part = subject::only_tube(from, &system, arguments.only.as_deref())?;
            let hint = format!(
                "A points table holds no tube and no tooling. To check it: elbowroom check {} --tube {}x{}\n",
                shown_path(to),
                part.tube.od.mm(),
                part.tube.wall.mm()
            );
            (Document::System(Box::new(System::of(part))), hint)
        }
    };
    write_document(to, &document)?;
    output::print(&format!("Written: {}\n{hint}", shown_path(to)))?;
    Ok(Outcome::Passes)
}

/// A part from a centreline, named after its file, tooling left to the shop.
pub fn part_of_points(file: &Path, path: VertexPath, tube: Tube) -> Part {
    Part {
        name: file.file_stem().map(|stem| harmless(&stem.to_string_lossy()).into_owned()).unwrap_or_default(),
        note: String::new(),
        tube,
        tooling: ToolingChoice::default(),
        path: Centreline::Vertices(path),
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        units: LengthUnit::Millimetre,
    }
}
