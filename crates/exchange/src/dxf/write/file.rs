//! The whole drawing.

use elbowroom_bending::{Keep, Nodes, Part, System, ToolingChoice, Tube};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::file::FileProblem;

use super::entities::Drawing;
use super::views::{CENTRELINE, DIMENSIONS, Drawn, NAMES, OUTLINE, View, views};
use crate::document::Document;
use crate::dxf::SPACE_LAYER;
use crate::error::TextError;
use crate::sound_run::sound_line;

/// The most straights and arcs of a drawing: nobody reads more on a sheet.
const MOST_ELEMENTS: usize = 20_000;

/// The R12 drawing of all tubes or centrelines of a document, in mm: the centreline in space, three views and an isometric
/// one with what straights and arcs measure. `file` is what the person calls it; it stands in the errors.
///
/// # Errors
/// Says which centreline cannot be drawn, and why not.
pub fn write(document: &Document, file: &str) -> Result<String, FileProblem> {
    drawn(document).and_then(|tubes| text_of(&tubes)).map_err(|error| error.in_file(file))
}

fn drawn(document: &Document) -> Result<Vec<Drawn>, TextError> {
    match document {
        Document::System(system) => of_system(system),
        Document::Lines(lines) => lines
            .iter()
            .map(|line| {
                // A part as the reading of its path wants it; of its tube nothing is drawn.
                let part = Part {
                    name: line.name.clone(),
                    note: String::new(),
                    tube: Tube::default(),
                    tooling: ToolingChoice::default(),
                    path: line.path.clone(),
                    stock: Default::default(),
                    units: LengthUnit::Millimetre,
                    pieces: Vec::new(),
                    nodes: Nodes::default(),
                    keep: Keep::default(),
                };
                Ok(Drawn { run: sound_line(&part)?, radius_mm: None, name: line.name.clone() })
            })
            .collect(),
    }
}

fn of_system(system: &System) -> Result<Vec<Drawn>, TextError> {
    let of_part = |part: &Part| {
        let size = part.tube.size(LengthUnit::Millimetre);
        let name = format!("{}: Ø {size}, {}", part.name, part.tube.material);
        Ok(Drawn { run: sound_line(part)?, radius_mm: Some(part.tube.od.mm() / 2.0), name })
    };
    system.tubes().iter().map(|tube| of_part(&tube.part)).collect()
}

fn text_of(tubes: &[Drawn]) -> Result<String, TextError> {
    if tubes.iter().map(|tube| tube.run.len()).sum::<usize>() > MOST_ELEMENTS {
        let what = format!("a drawing of more than {MOST_ELEMENTS} straights and arcs cannot be read");
        return Err(TextError::whole(what, "it must have fewer; write the tubes one by one"));
    }
    let mut drawing = Drawing::default();
    head(&mut drawing);
    drawing.put(0, "SECTION");
    drawing.put(2, "ENTITIES");
    for element in tubes.iter().flat_map(|tube| &tube.run) {
        drawing.element(SPACE_LAYER, element);
    }
    let views = views();
    let extents = views.each_ref().map(|view| view.extent(tubes));
    let size = extents.iter().map(|[left, bottom, right, top]| (right - left).max(top - bottom)).fold(1.0, f64::max);
    let (gap, letter) = (size / 4.0, size / 80.0);
    // Beside the centreline in space: front and side in a row, top below the front, the view from a corner below the side.
    let [front, top, side, _] = extents;
    let left = front[2] + gap;
    let second = left + (front[2] - front[0]).max(top[2] - top[0]) + gap;
    let below = |extent: [f64; 4], over: [f64; 4]| -(over[3] - over[1]).max(extent[3] - extent[1]) - gap;
    let row = below(extents[1], front).min(below(extents[3], side));
    let corners = [[left, 0.0], [left, row], [second, 0.0], [second, row]];
    for ((view, extent), corner) in views.iter().zip(&extents).zip(corners) {
        put_view(&mut drawing, view, tubes, [corner[0] - extent[0], corner[1] - extent[1]], letter, extent);
    }
    drawing.put(0, "ENDSEC");
    drawing.put(0, "EOF");
    Ok(drawing.into_text())
}

fn put_view(drawing: &mut Drawing, view: &View, tubes: &[Drawn], shift: [f64; 2], letter: f64, extent: &[f64; 4]) {
    view.draw(drawing, tubes, shift);
    let [left, bottom, right, top] = *extent;
    let at = |x: f64, y: f64| [x + shift[0], y + shift[1]];
    drawing.text(NAMES, at(left, top + 2.0 * letter), letter, view.name);
    if view.name == "ISOMETRIC" {
        return view.dimension(drawing, tubes, shift, letter);
    }
    // How wide and how high the whole is, outside over outside.
    let told = |value: f64| format!("{} mm", LengthUnit::Millimetre.bare(value));
    let under = bottom - 2.0 * letter;
    drawing.polyline(DIMENSIONS, &[at(left, under), at(right, under)]);
    drawing.text(DIMENSIONS, at((left + right) / 2.0, under - 1.5 * letter), letter, &told(right - left));
    let beside = right + 2.0 * letter;
    drawing.polyline(DIMENSIONS, &[at(beside, bottom), at(beside, top)]);
    drawing.text(DIMENSIONS, at(beside + letter, (bottom + top) / 2.0), letter, &told(top - bottom));
}

/// Version, unit and layers. The unit has no place in R12; readers of later versions know it.
fn head(drawing: &mut Drawing) {
    drawing.put(0, "SECTION");
    drawing.put(2, "HEADER");
    drawing.put(9, "$ACADVER");
    drawing.put(1, "AC1009");
    drawing.put(9, "$INSUNITS");
    drawing.put(70, 4);
    drawing.put(0, "ENDSEC");
    drawing.put(0, "SECTION");
    drawing.put(2, "TABLES");
    drawing.put(0, "TABLE");
    drawing.put(2, "LAYER");
    let layers = [(SPACE_LAYER, 1), (CENTRELINE, 3), (OUTLINE, 7), (DIMENSIONS, 5), (NAMES, 7)];
    drawing.put(70, layers.len());
    for (layer, colour) in layers {
        drawing.put(0, "LAYER");
        drawing.put(2, layer);
        drawing.put(70, 0);
        drawing.put(62, colour);
        drawing.put(6, "CONTINUOUS");
    }
    drawing.put(0, "ENDTAB");
    drawing.put(0, "ENDSEC");
}
