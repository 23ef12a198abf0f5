//! A drawing as centrelines.

use elbowroom_geometry::units::format_any;
use elbowroom_workbench::file::FileProblem;

use super::entities::Entities;
use super::pairs::Pairs;
use crate::chained::{Built, Piece, built, linked};
use crate::document::{Document, Line, Read, few, told_apart};
use crate::dxf::SPACE_LAYER;
use crate::error::TextError;
use crate::sound_run::as_drawn;

/// Ends nearer than this are one, mm: a hundredth of what anybody saws (common practice, no source).
const SAME_MM: f64 = 1e-3;
/// How far a centreline may lie from the drawing, mm.
const LARGEST_OFF_MM: f64 = 0.01;
/// The most centrelines of a drawing.
const MOST_LINES: usize = 1000;

/// Reads a drawing (DXF, R12 and later, text or binary): each chain of lines, arcs and polylines that belong together by
/// layer and ends is a centreline. `file` is what the person calls it; it stands in the errors.
///
/// # Errors
/// Says the line of what is unsound, and why there is no centreline where there is none.
pub fn read(bytes: &[u8], file: &str) -> Result<Read, FileProblem> {
    document(bytes).map_err(|error| error.in_file(file))
}

fn document(bytes: &[u8]) -> Result<Read, TextError> {
    let Contents { mut entities, unit } = contents(bytes)?;
    let mut notes = Vec::new();
    let unit_mm = match unit {
        Some(unit) => unit,
        None => {
            notes.push("The drawing names no unit: its figures are taken as millimetres.".to_owned());
            1.0
        }
    };
    for (kind, count) in &entities.passed {
        notes.push(format!("{count} of the kind {kind} were passed over."));
    }
    if let Some(space) = entities.layers.remove(SPACE_LAYER) {
        let others: usize = entities.layers.values().map(Vec::len).sum();
        if others > 0 {
            notes.push(format!("Only the layer {SPACE_LAYER} was read: the others are views of the same tubes."));
        }
        entities.layers.clear();
        entities.layers.insert(SPACE_LAYER.to_owned(), space);
    }
    let mut lines = Vec::new();
    for (layer, pieces) in entities.layers {
        let pieces: Vec<Piece> = pieces.iter().map(|piece| scaled(piece, unit_mm)).collect();
        take_layer(&layer, &pieces, &mut lines, &mut notes)?;
    }
    let notes = few(notes);
    if lines.is_empty() {
        let why = if notes.is_empty() { "it is empty".to_owned() } else { notes.join(" ") };
        let what = format!("the drawing holds no centreline: {}", why.trim_end_matches('.'));
        return Err(TextError::whole(what, "it must hold lines, arcs or polylines that join end to end"));
    }
    if let [line] = lines.as_mut_slice() {
        // A single one is called after its file.
        line.name.clear();
    } else {
        told_apart(&mut lines.iter_mut().map(|line| &mut line.name).collect::<Vec<_>>(), "Line");
    }
    Ok(Read { document: Document::Lines(lines), notes })
}

fn take_layer(layer: &str, pieces: &[Piece], lines: &mut Vec<Line>, notes: &mut Vec<String>) -> Result<(), TextError> {
    let linked = linked(pieces, SAME_MM);
    if let Some(fork) = linked.forks.first() {
        let at = [fork.x, fork.y, fork.z].map(format_any).join(", ");
        let more = if linked.forks.len() > 1 {
            format!(" and {} other places", linked.forks.len() - 1)
        } else {
            String::new()
        };
        notes.push(format!(
            "Layer {layer}: more than two ends meet at ({at}){more}; what is joined there was passed over."
        ));
    }
    if linked.rounds > 0 {
        notes.push(format!("Layer {layer}: {} closed outlines were passed over; a tube has two ends.", linked.rounds));
    }
    for chain in linked.chains {
        let chain: Vec<Piece> = chain.into_iter().map(|(_, piece)| piece).collect();
        match built(&chain) {
            Ok(Built { path, off_mm, corners }) if off_mm <= LARGEST_OFF_MM => {
                if corners > 0 {
                    notes.push(format!(
                        "Layer {layer}: {corners} corners have no arc and are read with a CLR of 0; give each the CLR of a die."
                    ));
                }
                lines.push(Line { name: layer.to_owned(), path: as_drawn(path) });
            }
            Ok(Built { off_mm, .. }) => {
                notes.push(format!(
                    "Layer {layer}: a chain whose ends lie {off_mm:.3} mm off each other was passed over."
                ));
            }
            Err(refusal) => notes.push(format!("Layer {layer}: a chain was passed over: {refusal}.")),
        }
        if lines.len() > MOST_LINES {
            let what = format!("the drawing holds more than {MOST_LINES} centrelines");
            return Err(TextError::whole(what, "it must hold fewer; leave out what is no centreline"));
        }
    }
    Ok(())
}

fn scaled(piece: &Piece, unit_mm: f64) -> Piece {
    match piece {
        Piece::Straight { from, to } => Piece::Straight { from: from * unit_mm, to: to * unit_mm },
        Piece::Arc { from, centre, axis, angle_rad } => {
            Piece::Arc { from: from * unit_mm, centre: centre * unit_mm, axis: *axis, angle_rad: *angle_rad }
        }
    }
}

/// What a drawing holds.
struct Contents {
    entities: Entities,
    /// Its unit in mm, where it names one.
    unit: Option<f64>,
}

/// Reads the sections of a drawing; it must be whole.
fn contents(bytes: &[u8]) -> Result<Contents, TextError> {
    let mut pairs = Pairs::new(bytes);
    let mut contents = Contents { entities: Entities::default(), unit: None };
    let mut variable = String::new();
    let mut begins = true;
    loop {
        let Some(pair) = pairs.next()? else {
            let right = "a drawing ends with EOF; take a whole copy of the file";
            return Err(pairs.wrong("the drawing breaks off: EOF is missing", right));
        };
        match (pair.code, pair.value.text()) {
            (0, "EOF") => return Ok(contents),
            (9, name) => variable = name.chars().take(40).collect(),
            (70, _) if variable == "$INSUNITS" => {
                let unit = pair.value.number().unwrap_or_default();
                contents.unit = unit_mm(unit).map_err(|what| {
                    pairs.wrong(what, "it must be one of millimetres, centimetres, metres, inches and feet")
                })?;
                variable.clear();
            }
            (2, "ENTITIES") => contents.entities.read(&mut pairs)?,
            (0, "SECTION") => begins = false,
            (999, _) => {}
            _ if begins => {
                return Err(pairs.wrong("a drawing begins with something else than SECTION", "take a whole copy of it"));
            }
            _ => {}
        }
    }
}

/// The unit of a number of $INSUNITS (the published DXF reference; from memory); 0 is none.
fn unit_mm(number: f64) -> Result<Option<f64>, String> {
    Ok(Some(match number as i64 {
        0 => return Ok(None),
        1 => 25.4,
        2 => 304.8,
        4 => 1.0,
        5 => 10.0,
        6 => 1000.0,
        8 => 25.4e-6,
        9 => 0.0254,
        10 => 914.4,
        13 => 1e-3,
        14 => 100.0,
        other => return Err(format!("the drawing's unit is number {other}, and no tube is measured in that")),
    }))
}
