//! `path-undefined`: the drawing makes no sense as a tube somewhere.

use elbowroom_geometry::PathProblem;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{Cures, Remedy};
use super::finding::{Facts, Place, Severity, Unit};
use super::subject::Subject;
use super::words::{Words, lower_first};
use crate::model::nearly::SAME_MM;
use crate::Path;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "path-undefined",
    title: "Drawing that is no tube",
    severity: "Always a stop.",
    summary: "The drawing has no tube in it, or makes no sense as one somewhere.",
    manual: MANUAL,
    about: About::Drawing,
    drawing: Drawing::Vertices,
    run,
};

const MANUAL: &str = "\
What it looks for
  A path with no length, two neighbouring vertices in one place, and a vertex at which the path turns
  straight back on itself.

Why it matters
  A leg without length has no direction, and a tube that doubles back on its own line has no bend plane
  and no radius. Nobody can tell which way to turn the tube. Everything else is solved around such a
  place, but what is said about its neighbours is only as good as the drawing.

How it is measured
  Vertices count as one where they lie less than a nanometre apart, and a turn as a fold-back where it
  is half a turn to within a millionth of a radian. The figure shown is the distance of the two vertices,
  or the angle of the turn.

Limit and its source
  Geometry: the tangent length R tan(θ/2) runs to infinity at half a turn. A real U-bend of 180° is held
  in bend rows, where it has a radius and no vertex.

Example
  Vertices at 0, 300 and 100 mm on one line: at the second one the path folds back.

Cure and its risk
  Remove the vertex, or move it. The path then goes straight between its neighbours, which is a new
  drawing: compare it with what was meant. For a U-bend type a row of 180°.
";

/// Where the drawing makes no sense, vertices by their numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// There is nothing.
    NoLength,
    /// Two vertices lie in one place, the lower number first.
    Coincident(u32, u32),
    /// The path turns straight back.
    FoldBack(u32),
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let solved = subject.solved;
    for problem in &solved.form.problems {
        match *problem {
            PathProblem::NoLength => no_length(subject, tell),
            PathProblem::Coincident { first, second } => coincident(subject, first, second, tell),
            PathProblem::FoldBack { vertex } => fold_back(subject, vertex, tell),
        }
    }
    let is_empty = solved.developed_length_mm <= SAME_MM && !solved.bends.iter().any(|bend| bend.is_bent());
    if is_empty && solved.form.problems.is_empty() {
        no_length(subject, tell);
    }
}

fn facts(place: Place, measured: f64, limit: f64, unit: Unit) -> Facts {
    Facts {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place,
        also: Vec::new(),
        measured,
        limit,
        unit,
        measured_basis: None,
        limit_basis: None,
    }
}

fn no_length(subject: &Subject, tell: Tell<Evidence>) {
    let length_mm = subject.solved.developed_length_mm;
    tell(facts(Place::default(), length_mm, 0.0, Unit::Millimetre), Evidence::NoLength);
}

/// The straight that leads to a vertex.
fn straight_to(subject: &Subject, vertex: usize) -> Place {
    let solved = subject.solved;
    let index = solved.form.vertex_of_bend.partition_point(|&at| at < vertex);
    let (from_mm, to_mm) =
        solved.centreline.straight(index).map_or((0.0, 0.0), |straight| (straight.from_mm, straight.to_mm()));
    Place {
        from_mm: from_mm.min(to_mm),
        to_mm: from_mm.max(to_mm),
        bend: (index < solved.bends.len()).then_some(index),
        straight: Some(index),
    }
}

/// Takes out a vertex by its number.
fn remove(subject: &Subject, number: u32, closes_up: bool) -> Remedy {
    Remedy::RemoveVertex { vertex: subject.solved.nodes.vertex(number as usize - 1), number, closes_up }
}

fn coincident(subject: &Subject, first: usize, second: usize, tell: Tell<Evidence>) {
    let mut distance_mm = 0.0;
    if let Path::Vertices(path) = &subject.part.path {
        let points = path.points();
        distance_mm = points.get(first).zip(points.get(second)).map_or(0.0, |(a, b)| (a - b).norm());
    }
    let (one, other) = (subject.number(first), subject.number(second));
    let facts = facts(straight_to(subject, first), distance_mm, 0.0, Unit::Millimetre);
    tell(facts, Evidence::Coincident(one.min(other), one.max(other)));
}

fn fold_back(subject: &Subject, vertex: usize, tell: Tell<Evidence>) {
    let mut place = straight_to(subject, vertex);
    if let Some(next) = place.bend.and_then(|bend| subject.solved.centreline.straight(bend + 1)) {
        place.to_mm = place.to_mm.max(next.to_mm());
    }
    let facts = facts(place, 180.0, 180.0, Unit::Degree);
    tell(facts, Evidence::FoldBack(subject.number(vertex)));
}

impl Said for Evidence {
    fn text(&self, _: &Facts, _: &Words) -> String {
        match self {
            Self::NoLength => "There is no tube yet: the path needs two points apart from one another.".into(),
            Self::Coincident(one, other) => {
                format!("Vertices {one} and {other} lie in one place, so there is no leg between them.")
            }
            Self::FoldBack(vertex) => {
                format!("At vertex {vertex} the path turns straight back on itself, and no bend does that.")
            }
        }
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        format!("Cannot be bent as drawn: {}", lower_first(&self.text(facts, words)))
    }

    fn cures(&self, _: &Facts, subject: &Subject) -> Option<Cures> {
        match (self, &subject.part.path) {
            (Self::Coincident(_, second), Path::Vertices(path)) if path.points().len() > 2 => {
                Some(remove(subject, *second, false).into())
            }
            (Self::FoldBack(vertex), _) => Some(remove(subject, *vertex, true).into()),
            _ => None,
        }
    }
}
