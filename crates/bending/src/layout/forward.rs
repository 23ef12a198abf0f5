//! The bender on paper: replays a program on a blank and says where everything ends up.
//!
//! Independent of the solver on purpose: it knows no vertices, no dihedral angles and no bend form, only a
//! machine with a fixed tangent point. What comes out must match the drawing, and tests say so.

use elbowroom_geometry::{Angle, Length, Point3, Vector3};
use nalgebra::{Isometry3, Rotation3, Translation3};

use crate::Hand;
use crate::program::Program;

/// How a real machine strays from what it is told, per step. All zero for a perfect one.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct MachineError {
    /// Added to the angle that is set.
    pub set_angle: Angle,
    /// Added to the rotation.
    pub rotation: Angle,
    /// Added to the feed.
    pub feed: Length,
}

/// A bent part as it lies in the machine, trims cut off.
#[derive(Clone, Debug, PartialEq)]
pub struct BentPart {
    /// The lead end.
    pub tip: Point3<f64>,
    /// For each bend its two tangent points, the one towards the lead end first.
    pub tangent_points: Vec<[Point3<f64>; 2]>,
    /// The tail end.
    pub end: Point3<f64>,
}

/// Replays a program on a blank of the program's length.
///
/// Machine axes: x from the chuck to the die along the tube, z up, so that right is −y. The tube ahead of
/// the tangent point (the origin) swings to the machine's hand; the blank behind it stays on the axis.
/// Errors beyond the list's end are zero.
pub fn replay(program: &Program, hand: Hand, errors: &[MachineError]) -> BentPart {
    let side = match hand {
        Hand::Right => -1.0,
        Hand::Left => 1.0,
    };
    // Everything already formed or fed past the tangent point, tip first.
    let mut ahead = vec![Point3::origin()];
    let mut used = 0.0;
    for (index, step) in program.steps.iter().enumerate() {
        let error = errors.get(index).copied().unwrap_or_default();
        let feed = (step.feed + error.feed).mm();
        used += feed;
        let roll = Rotation3::from_axis_angle(&Vector3::x_axis(), (step.rotation + error.rotation).radians());
        carry(&mut ahead, &Isometry3::from_parts(Translation3::new(feed, 0.0, 0.0), roll.into()));
        let set = step.set_angle + error.set_angle;
        let forming = &step.forming;
        let free = forming.line.free(set).radians();
        used += (step.forming.die_clr * (set.radians() * (1.0 - forming.stretch))).mm();
        // The drawn arc keeps its length when it opens.
        let radius = if free == 0.0 { 0.0 } else { forming.die_clr.mm() * set.radians() / free };
        let swing = Rotation3::from_axis_angle(&Vector3::z_axis(), side * free);
        let reach = Translation3::new(radius * free.sin(), side * radius * (1.0 - free.cos()), 0.0);
        carry(&mut ahead, &Isometry3::from_parts(reach, swing.into()));
        ahead.push(Point3::from(reach.vector));
        ahead.push(Point3::origin());
    }
    let behind = program.blank.mm() - used - program.tail_trim.mm();
    let end = Point3::new(-behind, 0.0, 0.0);
    let tip = match ahead[..] {
        [tip, next, ..] => {
            let along: Vector3<f64> = next - tip;
            if along.norm() > 0.0 { tip + along.normalize() * program.lead_trim.mm() } else { tip }
        }
        _ => Point3::new(-program.lead_trim.mm(), 0.0, 0.0),
    };
    let tangent_points = ahead[1..].chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect();
    BentPart { tip, tangent_points, end }
}

/// Moves every point.
fn carry(points: &mut [Point3<f64>], by: &Isometry3<f64>) {
    for point in points {
        *point = by * *point;
    }
}

impl BentPart {
    /// The vertices that a person would measure: both ends, and where the middles of neighbouring straights
    /// would meet. `None` for a bend of nearly half a turn and more, or a straight of no length, which
    /// have no such point.
    pub fn vertices(&self) -> Option<Vec<Point3<f64>>> {
        self.points(|_| false)
    }

    /// The points that a person would measure: the vertices, but for the bends (by their index in the order
    /// of bending) that `by_arc_ends` names the two points where the arc begins and ends.
    pub fn points(&self, by_arc_ends: impl Fn(usize) -> bool) -> Option<Vec<Point3<f64>>> {
        let mut stations = vec![self.tip];
        stations.extend(self.tangent_points.iter().flatten());
        stations.push(self.end);
        let mut points = vec![self.tip];
        for bend in 0..self.tangent_points.len() {
            let (start, end) = (stations[2 * bend + 1], stations[2 * bend + 2]);
            if by_arc_ends(bend) {
                points.extend([start, end]);
                continue;
            }
            let first = (stations[2 * bend + 1] - stations[2 * bend]).try_normalize(1e-6)?;
            let second = (stations[2 * bend + 3] - stations[2 * bend + 2]).try_normalize(1e-6)?;
            let across = first.cross(&second);
            if across.norm() < 1e-7 || first.dot(&second) < -0.9999 {
                return None;
            }
            let along = (end - start).cross(&second).dot(&across) / across.norm_squared();
            points.push(start + first * along);
        }
        points.push(self.end);
        Some(points)
    }
}
