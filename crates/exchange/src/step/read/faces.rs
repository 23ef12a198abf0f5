//! Faces as stretches of tube: what lies between the two circles round a cylinder or torus.
//!
//! The circles across the tube tell both ends of the stretch, and the side of each on which the face lies. So a face that
//! closes at a seam, two halves, and one between two circles alone all say the same.

use std::f64::consts::TAU;

use elbowroom_geometry::{Point3, Vector3};

use super::exchange::Exchange;
use super::place::Place;
use super::value::Value;
use crate::chained::Piece;
use crate::error::TextError;

/// Points and radii that differ by less are the same, mm: what programs that write solids hold (common practice, no source).
pub(super) const SAME_MM: f64 = 1e-4;
/// Directions that differ by less are the same, radians; likewise.
const SAME_RAD: f64 = 1e-4;

/// What a face is to a tube.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Face {
    /// A stretch of its outside or of its bore.
    Stretch(Stretch),
    /// Flat: an end, or nothing of a tube; with the middles of the circles that bound it.
    Flat(Vec<Point3<f64>>),
    /// Round, but not between two circles across the tube: a branch, a hole, an end that is cut at an angle.
    Cut,
    /// On a surface that is none of a tube's, by the name of its kind.
    Other(String),
}

/// A straight or arc of tube, or a part of it round the tube.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stretch {
    /// Its centreline, from where it lies in the world.
    pub piece: Piece,
    /// Radius of the tube, mm.
    pub radius_mm: f64,
    /// Whether it is the outside of the tube; else its bore.
    pub outside: bool,
    /// How far the face goes round the tube, radians.
    pub round_rad: f64,
    /// Whether there are openings in it.
    pub opened: bool,
}

/// A circle round the tube on which a face ends.
struct Rim {
    centre: Point3<f64>,
    /// The direction along the tube on which the face lies.
    inward: Vector3<f64>,
    round_rad: f64,
}

/// A round surface, in the unit of its file.
enum Round {
    Cylinder { place: Place, radius_mm: f64 },
    Torus { place: Place, clr_mm: f64, radius_mm: f64 },
}

impl Exchange<'_> {
    /// What a face is, in the world. `turned` says whether it is turned inside out.
    pub fn face(&self, number: u64, turned: bool, unit_mm: f64, lies: &Place) -> Result<Face, TextError> {
        let record = self.record(number)?;
        let values = record.of("ADVANCED_FACE").or_else(|| record.of("FACE_SURFACE"));
        let Some([.., bounds, surface, along]) = values else {
            return Ok(Face::Other(record.kind().to_owned()));
        };
        let unsound = |what: &str| self.wrong(number, what, "it must have bounds, a surface and a side");
        let surface = surface.reference().ok_or_else(|| unsound("has no surface"))?;
        let along = along.truth().ok_or_else(|| unsound("does not say its side"))?;
        let surface = self.record(surface)?;
        let radius = |index: usize| -> Result<f64, TextError> {
            let value = surface.values().get(index).and_then(Value::number).map(|value| value * unit_mm);
            value
                .filter(|value| *value > 0.0)
                .ok_or_else(|| self.wrong(surface.number, "has no radius", "it must have a radius of more than 0"))
        };
        let place = || {
            let place = surface.values().get(1).and_then(Value::reference);
            let place = place.ok_or_else(|| self.wrong(surface.number, "lies nowhere", "it must name a place"))?;
            self.axis_placement(place, unit_mm)
        };
        let round = match surface.kind() {
            "CYLINDRICAL_SURFACE" => Round::Cylinder { place: place()?, radius_mm: radius(2)? },
            "TOROIDAL_SURFACE" => Round::Torus { place: place()?, clr_mm: radius(2)?, radius_mm: radius(3)? },
            "PLANE" => return self.circles(bounds, unit_mm, lies).map(Face::Flat),
            _ => {
                let kind = surface.kinds.iter().map(|(kind, _)| *kind).find(|kind| kind.contains("B_SPLINE"));
                return Ok(Face::Other(kind.unwrap_or(surface.kind()).to_owned()));
            }
        };
        let outside = along != turned;
        let (mut rims, mut opened): (Vec<Rim>, bool) = (Vec::new(), false);
        for bound in bounds.list().iter().filter_map(Value::reference) {
            opened |= !self.bound(bound, &round, outside, unit_mm, &mut rims)?;
        }
        Ok(match round.stretch(&rims) {
            Some((piece, round_rad)) => Face::Stretch(Stretch {
                piece: lies.moved(&piece),
                radius_mm: round.radius_mm(),
                outside,
                round_rad,
                opened,
            }),
            None => Face::Cut,
        })
    }

    /// The middles of the circles that bound a face, in the world.
    fn circles(&self, bounds: &Value<'_>, unit_mm: f64, lies: &Place) -> Result<Vec<Point3<f64>>, TextError> {
        let mut middles = Vec::new();
        for bound in bounds.list().iter().filter_map(Value::reference) {
            let bound = self.record(bound)?;
            let Some(edges) = bound.values().get(1).and_then(Value::reference) else { continue };
            let edges = self.record(edges)?;
            for oriented in
                edges.of("EDGE_LOOP").into_iter().flatten().flat_map(Value::list).filter_map(Value::reference)
            {
                let oriented = self.record(oriented)?;
                let edge = oriented.of("ORIENTED_EDGE").and_then(|values| values.get(3)).and_then(Value::reference);
                let Some(edge) = edge.map(|edge| self.record(edge)).transpose()? else { continue };
                let curve = edge.of("EDGE_CURVE").and_then(|values| values.get(3)).and_then(Value::reference);
                let Some(curve) = curve.map(|curve| self.curve(curve)).transpose()? else { continue };
                let place = curve.of("CIRCLE").and_then(|values| values.get(1)).and_then(Value::reference);
                if let Some(place) = place {
                    middles.push(lies.carried(&self.axis_placement(place, unit_mm)?.origin));
                }
            }
        }
        Ok(middles)
    }

    /// Takes the rims of a bound; gives whether it has any.
    fn bound(
        &self,
        number: u64,
        round: &Round,
        outside: bool,
        unit_mm: f64,
        rims: &mut Vec<Rim>,
    ) -> Result<bool, TextError> {
        let before = rims.len();
        let record = self.record(number)?;
        let [_, edges, along] = record.values() else {
            return Err(self.wrong(number, "is no bound of a face", "it must name a loop and its side"));
        };
        let along_bound = along.truth().unwrap_or(true);
        let Some(edges) = edges.reference().map(|edges| self.record(edges)).transpose()? else { return Ok(false) };
        let Some([.., edges]) = edges.of("EDGE_LOOP") else { return Ok(false) };
        for oriented in edges.list().iter().filter_map(Value::reference) {
            let record = self.record(oriented)?;
            let Some([.., edge, along]) = record.of("ORIENTED_EDGE") else {
                return Err(self.wrong(oriented, "is no edge with a direction", "it must be an ORIENTED_EDGE"));
            };
            let (Some(edge), Some(along_edge)) = (edge.reference(), along.truth()) else {
                return Err(self.wrong(oriented, "names no edge and direction", "it must name both"));
            };
            if let Some(rim) = self.rim(edge, round, unit_mm)? {
                // Forward along the circle, seen from outside the tube, the face lies on the left: along the circle's axis.
                let forward = (along_bound == along_edge) == outside;
                rims.push(Rim { inward: if forward { rim.inward } else { -rim.inward }, ..rim });
            }
        }
        Ok(rims.len() > before)
    }

    /// An edge that runs round the tube; its `inward` is the axis about which it runs.
    fn rim(&self, number: u64, round: &Round, unit_mm: f64) -> Result<Option<Rim>, TextError> {
        let record = self.record(number)?;
        let Some([.., from, to, curve, along]) = record.of("EDGE_CURVE") else { return Ok(None) };
        let (Some(from), Some(to), Some(curve)) = (from.reference(), to.reference(), curve.reference()) else {
            return Err(self.wrong(number, "names no curve between two vertices", "it must name all three"));
        };
        let curve = self.curve(curve)?;
        let Some([_, place, radius]) = curve.of("CIRCLE") else { return Ok(None) };
        let (Some(place), Some(radius)) = (place.reference(), radius.number()) else {
            return Err(self.wrong(curve.number, "is no circle with a place and a radius", "it must have both"));
        };
        let place = self.axis_placement(place, unit_mm)?;
        if !round.is_across(&place, radius * unit_mm) {
            return Ok(None);
        }
        let axis = if along.truth().unwrap_or(true) { place.axis() } else { -place.axis() };
        let round_rad = if from == to {
            TAU
        } else {
            let [from, to] = [self.vertex(from, unit_mm)?, self.vertex(to, unit_mm)?];
            let turn = turn(&(from - place.origin), &(to - place.origin), &axis);
            if (from - to).norm() < SAME_MM { TAU } else { turn }
        };
        Ok(Some(Rim { centre: place.origin, inward: axis, round_rad }))
    }

    fn vertex(&self, number: u64, unit_mm: f64) -> Result<Point3<f64>, TextError> {
        let record = self.record(number)?;
        let point = record.of("VERTEX_POINT").and_then(|values| values.last()).and_then(Value::reference);
        self.point(point.ok_or_else(|| self.wrong(number, "is no vertex at a point", "it must be one"))?, unit_mm)
    }
}

/// How far it is from one direction to another about an axis, radians from 0 to a full turn.
fn turn(from: &Vector3<f64>, to: &Vector3<f64>, axis: &Vector3<f64>) -> f64 {
    from.cross(to).dot(axis).atan2(from.dot(to)).rem_euclid(TAU)
}

impl Round {
    fn radius_mm(&self) -> f64 {
        match self {
            Self::Cylinder { radius_mm, .. } | Self::Torus { radius_mm, .. } => *radius_mm,
        }
    }

    /// Whether a circle runs round the tube, square to its centreline.
    fn is_across(&self, circle: &Place, radius_mm: f64) -> bool {
        if (radius_mm - self.radius_mm()).abs() > SAME_MM {
            return false;
        }
        match self {
            Self::Cylinder { place, .. } => {
                let away = circle.origin - place.origin;
                let off_mm = away.cross(&place.axis()).norm();
                off_mm < SAME_MM && circle.axis().cross(&place.axis()).norm() < SAME_RAD
            }
            Self::Torus { place, clr_mm, .. } => {
                let away = circle.origin - place.origin;
                let out = away - place.axis() * place.axis().dot(&away);
                (away.norm() - clr_mm).abs() < SAME_MM
                    && (out.norm() - clr_mm).abs() < SAME_MM
                    && place
                        .axis()
                        .cross(&out)
                        .try_normalize(0.0)
                        .is_some_and(|along| along.cross(&circle.axis()).norm() < SAME_RAD)
            }
        }
    }

    /// The centreline between the rims, and how far the face goes round it.
    fn stretch(&self, rims: &[Rim]) -> Option<(Piece, f64)> {
        let first = rims.first()?;
        let is_first = |rim: &&Rim| (rim.centre - first.centre).norm() < SAME_MM && rim.inward.dot(&first.inward) > 0.0;
        let second = rims.iter().find(|rim| !is_first(rim))?;
        let is_second =
            |rim: &&Rim| (rim.centre - second.centre).norm() < SAME_MM && rim.inward.dot(&second.inward) > 0.0;
        let rounds = |is_it: &dyn Fn(&&Rim) -> bool| rims.iter().filter(is_it).map(|rim| rim.round_rad).sum::<f64>();
        let [here_rad, there_rad] = [rounds(&is_first), rounds(&is_second)];
        let both = rims.iter().filter(is_first).count() + rims.iter().filter(is_second).count();
        if both != rims.len() || (here_rad - there_rad).abs() > 1e-3 {
            return None;
        }
        let piece = match self {
            Self::Cylinder { .. } => {
                let between = second.centre - first.centre;
                let leads = between.dot(&first.inward) > 0.0 && between.dot(&second.inward) < 0.0;
                leads.then_some(Piece::Straight { from: first.centre, to: second.centre })?
            }
            Self::Torus { place, .. } => {
                let [from, to] = [first.centre - place.origin, second.centre - place.origin];
                let axis =
                    if place.axis().cross(&from).dot(&first.inward) > 0.0 { place.axis() } else { -place.axis() };
                let angle_rad = turn(&from, &to, &axis);
                let leads = axis.cross(&to).dot(&second.inward) < 0.0 && angle_rad > 0.0;
                leads.then_some(Piece::Arc { from: first.centre, centre: place.origin, axis, angle_rad })?
            }
        };
        Some((piece, here_rad))
    }
}

impl Place {
    /// A piece that is said from here.
    fn moved(&self, piece: &Piece) -> Piece {
        match piece {
            Piece::Straight { from, to } => Piece::Straight { from: self.carried(from), to: self.carried(to) },
            Piece::Arc { from, centre, axis, angle_rad } => Piece::Arc {
                from: self.carried(from),
                centre: self.carried(centre),
                axis: self.turned(axis),
                angle_rad: *angle_rad,
            },
        }
    }
}
