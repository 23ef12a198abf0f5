//! Points from a spreadsheet: in place of those from a row on, or a whole list as the tube.

use elbowroom_bending::{Edit, NodeId, Path};
use elbowroom_geometry::{Length, Point3, VertexPath};

use super::buttons::usual_clr;
use super::paste_error::PasteError;
use super::paste_fields::{fields, read_length};
use super::points::{Moves, PathPoint, Spot};
use super::{Cell, Column, Model};

/// A point as it was pasted: what was not given is as before.
struct Pasted {
    line: usize,
    at: [Option<Length>; 3],
    clr: Option<Length>,
}

/// The edit that a pasted text asks for, its first field into `start`.
///
/// # Errors
/// Says which line cannot be taken, and what would be right.
pub(super) fn edit(text: &str, start: Cell, model: &Model) -> Result<Edit, PasteError> {
    let lines = fields(text);
    if lines.is_empty() {
        return Err(wrong(1, "nothing is written; copy points as x, y, z and, if you like, CLR".to_owned()));
    }
    let pasted: Vec<Pasted> =
        lines.iter().map(|(line, fields)| read(fields, *line, start.column, model)).collect::<Result<_, _>>()?;
    // A row that nothing was pasted over: the table had no selection. Then the list is meant as a whole.
    let first = if start.row >= model.points.len() { 0 } else { start.row };
    let whole = first == 0 && pasted.iter().all(|point| point.at.iter().all(Option::is_some));
    let edit = if whole && (pasted.len() != model.points.len() || !all_free(model)) {
        whole_tube(&pasted, model)?
    } else {
        in_place(&pasted, first, model)?
    };
    edit.applied_to(&model.part).map_err(|refusal| wrong(lines[0].0, refusal.said(model.unit)))?;
    Ok(edit)
}

fn all_free(model: &Model) -> bool {
    model.points.iter().all(|(point, _)| point.moves == Moves::Freely)
}

fn read(fields: &[String], line: usize, start: Column, model: &Model) -> Result<Pasted, PasteError> {
    let columns = &Column::of(model.table)[start.index()..];
    if fields.len() > columns.len() {
        let names: Vec<&str> = columns.iter().map(|column| column.name()).collect();
        let noun = if fields.len() == 1 { "column" } else { "columns" };
        return Err(wrong(line, format!("it has {} {noun}; there is room for {}", fields.len(), names.join(", "))));
    }
    let mut pasted = Pasted { line, at: [None; 3], clr: None };
    for (column, field) in columns.iter().zip(fields) {
        match column.axis() {
            Some(axis) => pasted.at[axis] = Some(read_length(field, line, *column, model.unit)?),
            None if field.is_empty() => {}
            None => pasted.clr = Some(read_length(field, line, *column, model.unit)?),
        }
    }
    Ok(pasted)
}

/// The points as a new path. A radius that is not given is that of the bends there are.
fn whole_tube(pasted: &[Pasted], model: &Model) -> Result<Edit, PasteError> {
    let point = |pasted: &Pasted| Point3::from(pasted.at.map(|mm| mm.unwrap_or_default().mm()));
    let points: Vec<Point3<f64>> = pasted.iter().map(point).collect();
    let between = pasted.get(1..pasted.len().saturating_sub(1)).unwrap_or_default();
    let clr = between.iter().enumerate().map(|(index, pasted)| pasted.clr.unwrap_or_else(|| usual_clr(model, index)));
    let path = VertexPath::new(points, clr.collect()).map_err(|refusal| wrong(pasted[0].line, refusal.to_string()))?;
    Ok(Edit::SetPath(Path::Vertices(path)))
}

fn in_place(pasted: &[Pasted], first: usize, model: &Model) -> Result<Edit, PasteError> {
    let room = model.points.len() - first;
    if let Some(beyond) = pasted.get(room) {
        let what = format!(
            "{} points to paste, and {room} from {} on; paste from the start to take them as the whole tube",
            pasted.len(),
            model.name(first)
        );
        return Err(wrong(beyond.line, what));
    }
    let mut moved: Vec<(NodeId, Point3<f64>)> = Vec::new();
    let mut radii = Vec::new();
    for (pasted, (point, _)) in pasted.iter().zip(&model.points[first..]) {
        let mut at = point.at;
        for (axis, to) in pasted.at.iter().enumerate() {
            at[axis] = to.map_or(at[axis], Length::mm);
        }
        if at != point.at {
            moved.push((vertex(point, model).ok_or_else(|| held(pasted.line, point))?, at));
        }
        // Tables often give the ends a radius of 0.
        match (pasted.clr, point.clr.and(point.spot.bend())) {
            (Some(clr), Some(bend)) if Some(clr) != point.clr => {
                radii.push(Edit::SetClr(model.nodes.bend(bend), clr));
            }
            (Some(clr), None) if clr != Length::ZERO => {
                let what = format!("{} has no bend, so no CLR; leave the field empty", point.spot.name());
                return Err(PasteError { line: pasted.line, column: Some(Column::Clr), what });
            }
            _ => {}
        }
    }
    if moved.is_empty() && radii.is_empty() {
        return Err(wrong(pasted[0].line, "the points are there already".to_owned()));
    }
    // The radii first: a bend that the moved points turn to nothing has none to set.
    let moves = (!moved.is_empty()).then_some(Edit::MoveVertices(moved));
    Ok(Edit::Together("paste points".to_owned(), radii.into_iter().chain(moves).collect()))
}

/// The vertex that a point is, if it moves as one.
fn vertex(point: &PathPoint, model: &Model) -> Option<NodeId> {
    use elbowroom_geometry::HandleId::{Finish, Start, Vertex};
    match point.spot {
        _ if point.moves != Moves::Freely => None,
        Spot::Handle(Start) => Some(model.nodes.start()),
        Spot::Handle(Finish) => Some(model.nodes.finish()),
        Spot::Handle(Vertex(bend)) => Some(model.nodes.bend(bend)),
        Spot::Handle(_) => None,
        Spot::Vertex(vertex) => Some(model.nodes.vertex(vertex)),
    }
}

fn held(line: usize, point: &PathPoint) -> PasteError {
    let name = point.spot.name();
    wrong(line, format!("{name} does not move freely; leave it as it is, or paste the whole list from the start"))
}

fn wrong(line: usize, what: String) -> PasteError {
    PasteError { line, column: None, what }
}
