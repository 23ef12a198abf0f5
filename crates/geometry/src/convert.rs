//! From vertex form to bend form and back, without loss.

use nalgebra::{Point3, Vector3};
use thiserror::Error;

use crate::frame::any_perpendicular;
use crate::{Angle, BendPath, BendRow, Frame, Length, VertexPath};

/// Two vertices nearer than this are one, mm: a nanometre, far below anything a drawing can mean.
const COINCIDENT_MM: f64 = 1e-6;
/// A vertex that turns the tube by less carries no bend: over a leg of 10 m it is off the line by 0.01 mm.
const COLLINEAR_RAD: f64 = 1e-6;
/// A vertex that turns the tube to within this of half a turn is a fold-back: its tangent points would
/// lie more than a million radii away.
pub(crate) const FOLD_BACK_RAD: f64 = 1e-6;
/// Rotations this near to 0 or half a turn are exactly that, so that planar parts stay planar. It is an
/// order below the 1e-9 rad to which conversions hold.
const PLANAR_RAD: f64 = 1e-10;

/// A place where a drawing makes no sense as a tube. Vertices are counted from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathProblem {
    /// There are fewer than two distinct points, so there is no tube.
    NoLength,
    /// Two neighbouring vertices lie in one place, so the leg between them has no direction.
    Coincident {
        /// The first of the two.
        first: usize,
        /// The second, which is passed over.
        second: usize,
    },
    /// The path turns straight back on itself, so the bend has no plane and no finite arc fits.
    FoldBack {
        /// The vertex at which it turns.
        vertex: usize,
    },
}

/// A vertex path turned into bend form, with what was found on the way.
#[derive(Clone, Debug, PartialEq)]
pub struct BendForm {
    /// The bend form. A fold-back is a row of half a turn with radius 0.
    pub path: BendPath,
    /// For each bend the vertex it sits at, counted from 0.
    pub vertex_of_bend: Vec<usize>,
    /// Where the drawing makes no sense.
    pub problems: Vec<PathProblem>,
}

/// A bend that has no vertex, because its straights do not meet ahead of it.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
#[error("bend {} turns {:.1}°, and straights that far apart in direction meet in no vertex", bend + 1, angle.degrees())]
pub struct NoVertexForm {
    /// The bend, counted from 0.
    pub bend: usize,
    /// Its angle.
    pub angle: Angle,
}

/// Signed dihedral angle of the legs `a`, `b`, `c`: the rotation about `b` from the plane of `a`, `b` to
/// the plane of `b`, `c`, in (-π, π], positive clockwise looking along `b` (G02, G03, G04). `None`
/// where one of the planes is undefined.
pub fn dihedral(a: &Vector3<f64>, b: &Vector3<f64>, c: &Vector3<f64>) -> Option<Angle> {
    let (first, second) = (a.cross(b), b.cross(c));
    if first.norm_squared() == 0.0 || second.norm_squared() == 0.0 {
        return None;
    }
    Some(rotation_between(&first, &second, &b.normalize()))
}

/// The rotation about the unit vector `along` that carries axis `first` into axis `second`.
pub(crate) fn rotation_between(first: &Vector3<f64>, second: &Vector3<f64>, along: &Vector3<f64>) -> Angle {
    let radians = first.cross(second).dot(along).atan2(first.dot(second));
    let half = std::f64::consts::PI;
    Angle::from_radians(if radians.abs() < PLANAR_RAD {
        0.0
    } else if half - radians.abs() < PLANAR_RAD {
        half
    } else {
        radians
    })
}

/// Angle between two directions, accurate near 0 and near half a turn.
pub(crate) fn angle_between(a: &Vector3<f64>, b: &Vector3<f64>) -> f64 {
    a.cross(b).norm().atan2(a.dot(b))
}

impl VertexPath {
    /// The bend form of this path. Total: problems are listed, and the rest is solved around them.
    ///
    /// Lengths follow from the tangent length T = R tan(θ/2) (G06), rotations from the signed dihedral
    /// angle (G02 to G04). Collinear vertices carry no bend.
    pub fn to_bend_form(&self) -> BendForm {
        let mut problems = Vec::new();
        let corners = self.corners(&mut problems);
        let points: Vec<&Point3<f64>> = corners.iter().map(|&index| &self.points()[index]).collect();
        if points.len() < 2 {
            problems.push(PathProblem::NoLength);
            let origin = self.points().first().copied().unwrap_or_else(Point3::origin);
            let path = BendPath::trusted(Frame { origin, ..Frame::world() }, Vec::new(), Length::ZERO);
            return BendForm { path, vertex_of_bend: Vec::new(), problems };
        }
        let legs: Vec<Vector3<f64>> = points.windows(2).map(|pair| pair[1] - pair[0]).collect();
        let directions: Vec<Vector3<f64>> = legs.iter().map(|leg| leg.normalize()).collect();
        let mut rows = Vec::with_capacity(legs.len() - 1);
        let mut last_axis: Option<Vector3<f64>> = None;
        let mut first_axis = None;
        let mut taken_mm = 0.0;
        for (index, pair) in directions.windows(2).enumerate() {
            let vertex = corners[index + 1];
            let (before, after) = (&pair[0], &pair[1]);
            let mut angle_rad = angle_between(before, after);
            let mut radius = self.clr()[vertex - 1];
            let mut axis = before.cross(after);
            if std::f64::consts::PI - angle_rad < FOLD_BACK_RAD {
                problems.push(PathProblem::FoldBack { vertex });
                angle_rad = std::f64::consts::PI;
                radius = Length::ZERO;
                // A fold-back has no plane of its own: it keeps that of the bend before it.
                axis = last_axis.map_or_else(|| any_perpendicular(before), |last| last - before * before.dot(&last));
            }
            let axis = axis.normalize();
            let tangent_mm = if radius == Length::ZERO { 0.0 } else { radius.mm() * (angle_rad / 2.0).tan() };
            rows.push(BendRow {
                straight: Length::from_mm(legs[index].norm() - taken_mm - tangent_mm),
                rotation: last_axis.map_or(Angle::ZERO, |last| rotation_between(&last, &axis, before)),
                angle: Angle::from_radians(angle_rad),
                clr: radius,
            });
            taken_mm = tangent_mm;
            first_axis = first_axis.or(Some(axis));
            last_axis = Some(axis);
        }
        let tail = Length::from_mm(legs[legs.len() - 1].norm() - taken_mm);
        let tangent = directions[0];
        let normal = first_axis.map_or_else(|| any_perpendicular(&tangent), |axis| axis.cross(&tangent).normalize());
        let start = Frame { origin: *points[0], tangent, normal };
        let vertex_of_bend = corners[1..corners.len() - 1].to_vec();
        BendForm { path: BendPath::trusted(start, rows, tail), vertex_of_bend, problems }
    }

    /// The vertices that shape the tube: both ends, and every vertex at which it turns.
    fn corners(&self, problems: &mut Vec<PathProblem>) -> Vec<usize> {
        let points = self.points();
        let mut distinct: Vec<usize> = Vec::with_capacity(points.len());
        for index in 0..points.len() {
            match distinct.last() {
                Some(&first) if (points[index] - points[first]).norm() < COINCIDENT_MM => {
                    problems.push(PathProblem::Coincident { first, second: index });
                }
                _ => distinct.push(index),
            }
        }
        let mut corners: Vec<usize> = Vec::with_capacity(distinct.len());
        for (place, &index) in distinct.iter().enumerate() {
            let turns = match (corners.last(), distinct.get(place + 1)) {
                (Some(&before), Some(&after)) => {
                    angle_between(&(points[index] - points[before]), &(points[after] - points[index])) >= COLLINEAR_RAD
                }
                _ => true,
            };
            if turns {
                corners.push(index);
            }
        }
        corners
    }
}

impl BendPath {
    /// The largest bend that the vertex form holds: beyond it the vertex lies over a hundred thousand
    /// radii away and the straights are lost in its rounding.
    pub const LARGEST_VERTEX_ANGLE: Angle = Angle::from_degrees(179.999);

    /// The vertex form of this path. A row of angle 0 becomes a vertex on the line.
    ///
    /// # Errors
    /// A bend beyond [`BendPath::LARGEST_VERTEX_ANGLE`] has no vertex.
    pub fn to_vertex_form(&self) -> Result<VertexPath, NoVertexForm> {
        let mut points = Vec::with_capacity(self.rows().len() + 2);
        let mut frame = *self.start();
        points.push(frame.origin);
        for (bend, row) in self.rows().iter().enumerate() {
            if row.angle > Self::LARGEST_VERTEX_ANGLE {
                return Err(NoVertexForm { bend, angle: row.angle });
            }
            let arc_start = frame.advanced(row.straight.mm()).rolled(row.rotation.radians());
            let tangent_mm = row.tangent_mm();
            points.push(arc_start.advanced(tangent_mm).origin);
            frame = arc_start.bent(row.clr.mm(), row.angle.radians());
        }
        points.push(frame.advanced(self.tail().mm()).origin);
        Ok(VertexPath::trusted(points, self.rows().iter().map(|row| row.clr).collect()))
    }
}
