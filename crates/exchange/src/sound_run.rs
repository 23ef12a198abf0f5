//! The straights and arcs of a part as a solid needs them: each of some length, each beginning where the one before ends.

use elbowroom_bending::Part;
use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{
    Angle, BendPath, BendRow, Centreline, Element, ElementKind, Length, PathProblem, Refusal, VertexPath,
};

use crate::chained::clean;
use crate::error::TextError;

/// A straight shorter than this is none, mm: a nanometre, a tenth of what programs that read solids hold two points
/// apart by (1e-5 to 1e-7 mm, common practice, no source).
const NO_STRAIGHT_MM: f64 = 1e-6;
/// A turn below this is none, radians: the figure at which vertices count as lying on a line.
const NO_TURN_RAD: f64 = 1e-6;

/// The straights and arcs of a part in order, without those that have no length: a vertex on a line and arcs that follow
/// each other at once leave no trace. A tube that runs into itself is let be.
///
/// # Errors
/// Says why no solid has this shape: a straight of less than no length, a fold-back, a bend tighter than the tube is
/// thick, no length at all.
pub(crate) fn sound_run(part: &Part) -> Result<Vec<Element>, TextError> {
    let elements = sound_line(part)?;
    let half = part.tube.od.mm() / 2.0;
    let rows = part.path.bend_form().path;
    for (index, row) in rows.rows().iter().enumerate().filter(|(_, row)| row.angle.radians() >= NO_TURN_RAD) {
        if row.clr.mm() <= half {
            let what = format!(
                "{} cannot be a solid: bend {} has a CLR of {} mm, and the inside of the bend would fold into itself",
                named(part),
                index + 1,
                format_any(row.clr.mm())
            );
            return Err(TextError::whole(what, format!("it must be more than half the OD, {} mm", format_any(half))));
        }
    }
    Ok(elements)
}

/// The same for a centreline alone, which may turn as sharply as it likes.
///
/// # Errors
/// Says why there is no such line: a straight of less than no length, a fold-back, no length at all.
pub(crate) fn sound_line(part: &Part) -> Result<Vec<Element>, TextError> {
    let form = part.path.bend_form();
    let cannot =
        |what: String, right: &str| TextError::whole(format!("{} cannot be drawn: {what}", named(part)), right);
    for problem in &form.problems {
        match problem {
            PathProblem::FoldBack { vertex } => {
                let what = format!("it turns straight back on itself at vertex {}", vertex + 1);
                return Err(cannot(what, "move that vertex, or draw a bend of half a turn as a bend row"));
            }
            PathProblem::NoLength => return Err(cannot("it has no length".into(), "give it two ends that lie apart")),
            PathProblem::Coincident { .. } => {}
        }
    }
    let straights = form.path.rows().iter().map(|row| row.straight).chain([form.path.tail()]);
    let short = straights.enumerate().find(|(_, straight)| straight.mm() < -NO_STRAIGHT_MM);
    if let Some((index, straight)) = short {
        let place = if index == form.path.rows().len() {
            "behind the last bend".to_owned()
        } else {
            format!("before bend {}", index + 1)
        };
        let what = format!("the straight {place} is {} mm long", format_any(straight.mm()));
        return Err(cannot(what, "a straight must not be shorter than 0; draw the bends further apart"));
    }
    let path = without_turns_of_nothing(&form.path)
        .map_err(|refusal| cannot(refusal.to_string(), "draw it nearer to the origin"))?;
    let is_there = |element: &&Element| match element.kind {
        ElementKind::Straight => element.length_mm > NO_STRAIGHT_MM,
        ElementKind::Arc { .. } => true,
    };
    let elements: Vec<Element> = Centreline::of(&path).elements().iter().filter(is_there).copied().collect();
    if elements.is_empty() {
        return Err(cannot("it has no length".into(), "give it two ends that lie apart"));
    }
    Ok(elements)
}

/// A path without the rows that turn nothing: their straights join those behind them, and so do their rotations.
fn without_turns_of_nothing(path: &BendPath) -> Result<BendPath, Refusal> {
    let (mut straight, mut rotation) = (Length::ZERO, Angle::ZERO);
    let mut rows = Vec::with_capacity(path.rows().len());
    for row in path.rows() {
        straight += row.straight;
        rotation = (rotation + row.rotation).within_half_turn();
        if row.angle.radians() >= NO_TURN_RAD {
            rows.push(BendRow { straight, rotation, ..*row });
            (straight, rotation) = (Length::ZERO, Angle::ZERO);
        }
    }
    BendPath::new(*path.start(), rows, straight + path.tail())
}

/// What a message calls a part.
fn named(part: &Part) -> String {
    if part.name.trim().is_empty() { "the tube".into() } else { format!("the tube \u{201c}{}\u{201d}", part.name) }
}

/// A path in the form that people edit it in: as vertices where every bend has one within reach, else as bend rows.
pub(crate) fn as_drawn(path: BendPath) -> elbowroom_bending::Path {
    let vertices = path.to_vertex_form().ok().and_then(|path| {
        let points = path.points().iter().map(|point| point.map(clean)).collect();
        VertexPath::new(points, path.clr().to_vec()).ok()
    });
    let sharp = path.rows().iter().all(|row| row.angle <= SHARPEST_AS_VERTEX);
    match vertices {
        Some(vertices) if sharp => elbowroom_bending::Path::Vertices(vertices),
        _ => elbowroom_bending::Path::Bends(path),
    }
}

/// Bends up to here are read as vertices: from here on a vertex lies four radii away and more, and whoever measures such a
/// bend takes the ends of its arc instead (common practice, no source).
const SHARPEST_AS_VERTEX: Angle = Angle::from_degrees(150.0);
