//! What a path becomes when a handle is dragged.

use super::nodes::{Node, Nodes};
use super::{HandleId, is_large};
use crate::refusal::guard_mm;
use crate::{Angle, BendPath, BendRow, Frame, LARGEST_MM, Length, Point3, Refusal, Vector3};

/// A handle that slides stays at least so far ahead of what it slides from, mm: a vertex right on the
/// end of an arc would have no straight direction to leave by.
const AHEAD_MM: f64 = 1e-3;

/// The path after a handle has been dragged to a point (mm).
///
/// - A vertex moves alone, and its neighbours stay. Where the next bend is a large one, the start of its
///   arc stays, and everything from there on turns rigidly by the smallest rotation. The first vertex
///   after a large bend slides along the direction in which that bend ends.
/// - The start of a large bend slides along the straight before it, and everything beyond moves parallel.
/// - The end of a large bend takes the place on the arc nearest to the point, the bend being turned
///   about the straight before it until it faces the point; everything beyond moves along rigidly.
/// - The ends move freely; the tail end after a large bend slides.
///
/// Rows that do not change keep their bits.
///
/// # Errors
/// Refuses a point that is not finite or beyond [`LARGEST_MM`], a handle the path does not have, and a
/// place at which a leg would have no length or a corner would fold straight back.
pub fn drag_handle(path: &BendPath, id: HandleId, to: Point3<f64>) -> Result<BendPath, Refusal> {
    for (axis, value_mm) in ["x", "y", "z"].into_iter().zip(to.iter()) {
        guard_mm(|| format!("the new place, {axis}"), *value_mm, -LARGEST_MM, LARGEST_MM)?;
    }
    if let Some(bend) = id.bend()
        && bend >= path.rows().len()
    {
        let has = format!("one of the {} bends of the part", path.rows().len());
        return Err(Refusal::new("the handle", format!("on bend {}", bend + 1), has));
    }
    let mut nodes = Nodes::of(path);
    match id {
        HandleId::Start => nodes.lead = to,
        HandleId::Finish => nodes.tail = slid(&nodes, path.rows().len(), to),
        HandleId::Vertex(bend) => {
            let vertex = slid(&nodes, bend, to);
            match &mut nodes.bends[bend] {
                Node::Corner { vertex: held } => *held = vertex,
                Node::Arc { .. } => {
                    let was = format!(
                        "the vertex of bend {}, which turns {:.1}°",
                        bend + 1,
                        path.rows()[bend].angle.degrees()
                    );
                    return Err(Refusal::new("the handle", was, "the start or the end of its arc"));
                }
            }
        }
        HandleId::ArcStart(bend) => return arc_start_slid(path, bend, &to),
        HandleId::ArcEnd(bend) => return arc_end_turned(path, bend, &to),
    }
    nodes.put_together()
}

/// Where the node of a bend (or the tail end) goes if it is dragged to a point: along the direction of a
/// large bend before it, or right there.
fn slid(nodes: &Nodes, bend: usize, to: Point3<f64>) -> Point3<f64> {
    match bend.checked_sub(1).map(|before| (nodes.bends[before], nodes.arc_ends[before])) {
        Some((Node::Arc { .. }, end)) => {
            let ahead_mm = (to - end.origin).dot(&end.tangent).max(AHEAD_MM);
            end.origin + end.tangent * ahead_mm
        }
        _ => to,
    }
}

/// The frame at the start of a bend's arc, before its rotation.
fn frame_before(path: &BendPath, bend: usize) -> Frame {
    let along = |frame: Frame, row: &BendRow| frame.advanced(row.straight.mm()).rolled(row.rotation.radians());
    let at_end = |frame: Frame, row: &BendRow| along(frame, row).bent(row.clr.mm(), row.angle.radians());
    let before = path.rows()[..bend].iter().fold(*path.start(), at_end);
    before.advanced(path.rows()[bend].straight.mm())
}

fn arc_start_slid(path: &BendPath, bend: usize, to: &Point3<f64>) -> Result<BendPath, Refusal> {
    let frame = frame_before(path, bend);
    let mut rows = path.rows().to_vec();
    let straight_mm = rows[bend].straight.mm() + (to - frame.origin).dot(&frame.tangent);
    // Back as far as the vertex before it, the end of a large arc, or the lead end.
    let back_mm = match bend.checked_sub(1).map(|before| &path.rows()[before]) {
        Some(before) if !is_large(before.angle) => -before.tangent_mm(),
        _ => 0.0,
    };
    rows[bend].straight = Length::from_mm(straight_mm.max(back_mm));
    BendPath::new(*path.start(), rows, path.tail())
}

fn arc_end_turned(path: &BendPath, bend: usize, to: &Point3<f64>) -> Result<BendPath, Refusal> {
    let frame = frame_before(path, bend);
    let mut rows = path.rows().to_vec();
    let row = &mut rows[bend];
    let from_start = to - frame.origin;
    let aside: Vector3<f64> = from_start - frame.tangent * frame.tangent.dot(&from_start);
    // On the line of the straight itself every plane is as near: the bend keeps its own.
    let normal = aside.try_normalize(1e-9 * from_start.norm()).unwrap_or(frame.rolled(row.rotation.radians()).normal);
    row.rotation = Angle::from_radians(frame.binormal().dot(&normal).atan2(frame.normal.dot(&normal)));
    let turn = frame.tangent.dot(&from_start).atan2(row.clr.mm() - normal.dot(&from_start));
    let turn = if turn < 0.0 { turn + std::f64::consts::TAU } else { turn };
    // Beyond the largest angle the nearer of the two ends of what is allowed: that, or no bend.
    let largest = BendPath::LARGEST_ANGLE.radians();
    let past_both = turn > largest.midpoint(std::f64::consts::TAU);
    row.angle = Angle::from_radians(if past_both { 0.0 } else { turn.min(largest) });
    BendPath::new(*path.start(), rows, path.tail())
}
