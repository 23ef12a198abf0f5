//! A path as the things that stay put while a handle is dragged: ends, vertices and large arcs.

use nalgebra::{Isometry3, Translation3, UnitQuaternion};

use super::is_large;
use crate::convert::{FOLD_BACK_RAD, angle_between, rotation_between};
use crate::frame::any_perpendicular;
use crate::{Angle, BendPath, BendRow, Frame, Length, Point3, Refusal, Vector3};

/// Two handles nearer than this leave no leg between them, mm.
const SHORTEST_LEG_MM: f64 = 1e-6;
/// A corner that turns by less is straight; it keeps its place among the bends.
const STRAIGHT_RAD: f64 = 1e-9;
/// Rows that come out this near to what they were have not changed, mm and rad: rounding is no edit.
const UNCHANGED_MM: f64 = 1e-9;
const UNCHANGED_RAD: f64 = 1e-11;

/// A bend as it is held while others move.
#[derive(Clone, Copy, Debug)]
pub(super) enum Node {
    /// By its vertex.
    Corner { vertex: Point3<f64> },
    /// By the start of its arc; the rest follows the direction into it.
    Arc { start: Point3<f64> },
}

/// A path taken apart.
pub(super) struct Nodes<'a> {
    path: &'a BendPath,
    pub lead: Point3<f64>,
    pub bends: Vec<Node>,
    pub tail: Point3<f64>,
    /// For each leg its direction, and its signed length between the nodes.
    legs: Vec<(Vector3<f64>, f64)>,
    /// For each bend its axis.
    axes: Vec<Vector3<f64>>,
    /// For each bend where its arc ends; the next leg of a large one starts there.
    pub arc_ends: Vec<Frame>,
}

impl<'a> Nodes<'a> {
    /// Takes a path apart.
    pub fn of(path: &'a BendPath) -> Self {
        let mut nodes = Self {
            path,
            lead: path.start().origin,
            bends: Vec::new(),
            tail: Point3::origin(),
            legs: Vec::new(),
            axes: Vec::new(),
            arc_ends: Vec::new(),
        };
        let mut frame = *path.start();
        let mut taken_mm = 0.0;
        for row in path.rows() {
            let arc_start = frame.advanced(row.straight.mm()).rolled(row.rotation.radians());
            frame = arc_start.bent(row.clr.mm(), row.angle.radians());
            let tangent_mm = if is_large(row.angle) { 0.0 } else { row.tangent_mm() };
            nodes.bends.push(if is_large(row.angle) {
                Node::Arc { start: arc_start.origin }
            } else {
                Node::Corner { vertex: arc_start.advanced(tangent_mm).origin }
            });
            nodes.legs.push((arc_start.tangent, taken_mm + row.straight.mm() + tangent_mm));
            nodes.axes.push(arc_start.binormal());
            nodes.arc_ends.push(frame);
            taken_mm = tangent_mm;
        }
        nodes.tail = frame.advanced(path.tail().mm()).origin;
        nodes.legs.push((frame.tangent, taken_mm + path.tail().mm()));
        nodes
    }

    /// Puts the path together again. What lies beyond a large arc whose direction changed turns rigidly
    /// about its start by the smallest rotation.
    pub fn put_together(&self) -> Result<BendPath, Refusal> {
        let rows = self.path.rows();
        let mut beyond = Isometry3::identity();
        let mut legs = Vec::with_capacity(self.legs.len());
        let mut axes: Vec<Vector3<f64>> = Vec::with_capacity(rows.len());
        let mut from = self.lead;
        let mut fixed = None;
        for bend in 0..=rows.len() {
            let node = self.bends.get(bend);
            let to = beyond
                * match node {
                    Some(Node::Corner { vertex }) => *vertex,
                    Some(Node::Arc { start }) => *start,
                    None => self.tail,
                };
            let was = beyond * self.legs[bend].0;
            let (direction, length_mm) = leg(&from, &to, (was, self.legs[bend].1), fixed, bend, rows.len())?;
            legs.push((direction, length_mm));
            from = to;
            fixed = None;
            if let Some(Node::Arc { .. }) = node {
                beyond = smallest_turn(&was, &direction, &to) * beyond;
                let axis = beyond * self.axes[bend];
                let end = beyond * self.arc_ends[bend];
                axes.push(axis);
                from = end.origin;
                fixed = Some(end.tangent);
            } else if node.is_some() {
                axes.push(beyond * self.axes[bend]);
            }
        }
        self.rows_of(&legs, axes)
    }

    /// Solves the rows from legs and the axes of the large bends; corners find their own.
    fn rows_of(&self, legs: &[(Vector3<f64>, f64)], mut axes: Vec<Vector3<f64>>) -> Result<BendPath, Refusal> {
        let old = self.path.rows();
        let mut rows = Vec::with_capacity(old.len());
        let mut taken_mm = 0.0;
        for bend in 0..old.len() {
            let (before, after) = (legs[bend].0, legs[bend + 1].0);
            let mut row = old[bend];
            let mut tangent_mm = 0.0;
            if let Node::Corner { .. } = self.bends[bend] {
                let angle_rad = angle_between(&before, &after);
                if std::f64::consts::PI - angle_rad < FOLD_BACK_RAD {
                    return Err(Refusal::new(
                        format!("the corner of bend {}", bend + 1),
                        "folded straight back",
                        "a turn of less than 180°",
                    ));
                }
                let is_straight = angle_rad < STRAIGHT_RAD;
                row.angle = Angle::from_radians(if is_straight { 0.0 } else { angle_rad });
                let axis =
                    if is_straight { axes[bend] - before * before.dot(&axes[bend]) } else { before.cross(&after) };
                axes[bend] = axis.try_normalize(0.0).unwrap_or_else(|| any_perpendicular(&before));
                tangent_mm = row.tangent_mm();
            }
            row.straight = Length::from_mm(legs[bend].1 - taken_mm - tangent_mm);
            row.rotation = match bend {
                0 => Angle::ZERO,
                _ => rotation_between(&axes[bend - 1], &axes[bend], &before),
            };
            rows.push(unchanged(row, &old[bend]));
            taken_mm = tangent_mm;
        }
        let tail = settled(Length::from_mm(legs[old.len()].1 - taken_mm), self.path.tail());
        let start = self.path.start();
        let normal = axes.first().map_or(start.normal, |axis| axis.cross(&legs[0].0));
        let was = (start.tangent - legs[0].0).amax().max((start.normal - normal).amax());
        let start = if was < UNCHANGED_RAD {
            Frame { origin: self.lead, ..*start }
        } else {
            Frame { origin: self.lead, tangent: legs[0].0, normal }
        };
        BendPath::new(start, rows, tail)
    }
}

/// Direction and signed length of the leg between two nodes. A leg that has not changed keeps both, and
/// one that leaves a large arc keeps its direction.
fn leg(
    from: &Point3<f64>,
    to: &Point3<f64>,
    (was, was_mm): (Vector3<f64>, f64),
    fixed: Option<Vector3<f64>>,
    index: usize,
    last: usize,
) -> Result<(Vector3<f64>, f64), Refusal> {
    let leg = to - from;
    if (leg - was * was_mm).amax() <= UNCHANGED_MM {
        return Ok((was, was_mm));
    }
    if let Some(direction) = fixed {
        return Ok((direction, leg.dot(&direction)));
    }
    let length_mm = leg.norm();
    if length_mm < SHORTEST_LEG_MM {
        let field = if index == last {
            "the leg to the finish".to_owned()
        } else {
            format!("the leg before bend {}", index + 1)
        };
        return Err(Refusal::new(field, "0 mm long", "longer, or it has no direction"));
    }
    Ok((leg / length_mm, length_mm))
}

/// The smallest rotation about `pivot` that carries one direction into another.
fn smallest_turn(from: &Vector3<f64>, to: &Vector3<f64>, pivot: &Point3<f64>) -> Isometry3<f64> {
    if from == to {
        return Isometry3::identity();
    }
    let turn = UnitQuaternion::rotation_between(from, to).unwrap_or_else(|| {
        let axis = nalgebra::Unit::new_normalize(any_perpendicular(from));
        UnitQuaternion::from_axis_angle(&axis, std::f64::consts::PI)
    });
    Isometry3::from_parts(Translation3::from(pivot.coords - turn * pivot.coords), turn)
}

impl std::ops::Mul<Frame> for Isometry3<f64> {
    type Output = Frame;
    fn mul(self, frame: Frame) -> Frame {
        Frame { origin: self * frame.origin, tangent: self * frame.tangent, normal: self * frame.normal }
    }
}

/// The new value, or the old one where only rounding lies between them.
fn settled(new: Length, old: Length) -> Length {
    if (new - old).mm().abs() < UNCHANGED_MM { old } else { new }
}

fn unchanged(new: BendRow, old: &BendRow) -> BendRow {
    let angle = |new: Angle, old: Angle| if (new - old).radians().abs() < UNCHANGED_RAD { old } else { new };
    BendRow {
        straight: settled(new.straight, old.straight),
        rotation: angle(new.rotation, old.rotation),
        angle: angle(new.angle, old.angle),
        clr: old.clr,
    }
}
