//! `path-undefined`: the drawing makes no sense as a tube somewhere.

use elbowroom_geometry::PathProblem;

use super::words::with_cures;
use super::{About, Check, SAME_MM, Subject};
use crate::{Cure, Edit, Finding, Path, Place, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "path-undefined",
    summary: "The drawing has no tube in it, or makes no sense as one somewhere.",
    manual: MANUAL,
    about: About::Drawing,
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

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let solved = subject.solved;
    for problem in &solved.form.problems {
        match *problem {
            PathProblem::NoLength => findings.push(no_length(subject)),
            PathProblem::Coincident { first, second } => findings.push(coincident(subject, first, second)),
            PathProblem::FoldBack { vertex } => findings.push(fold_back(subject, vertex)),
        }
    }
    let is_empty = solved.developed_length_mm <= SAME_MM && !solved.bends.iter().any(|bend| bend.is_bent());
    if is_empty && solved.form.problems.is_empty() {
        findings.push(no_length(subject));
    }
}

fn finding(place: Place, measured: f64, limit: f64, unit: Unit, what: String, cures: Vec<Cure>) -> Finding {
    Finding {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place,
        also: Vec::new(),
        measured,
        limit,
        unit,
        measured_basis: None,
        limit_basis: None,
        text: with_cures(format_args!("{what}."), &cures),
        verdict: format!("Cannot be bent as drawn: {}.", lower_first(&what)),
        cures,
    }
}

fn lower_first(text: &str) -> String {
    let mut characters = text.chars();
    let first = characters.next().into_iter().flat_map(char::to_lowercase);
    first.chain(characters).collect()
}

fn no_length(subject: &Subject) -> Finding {
    let what = "There is no tube yet: the path needs two points apart from one another";
    let length_mm = subject.solved.developed_length_mm;
    finding(Place::default(), length_mm, 0.0, Unit::Millimetre, what.into(), Vec::new())
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

fn coincident(subject: &Subject, first: usize, second: usize) -> Finding {
    let mut distance_mm = 0.0;
    let mut cures = Vec::new();
    if let Path::Vertices(path) = &subject.part.path {
        let points = path.points();
        distance_mm = points.get(first).zip(points.get(second)).map_or(0.0, |(a, b)| (a - b).norm());
        if points.len() > 2 {
            cures.push(Cure {
                label: format!("Remove vertex {}", second + 1),
                edit: Edit::RemoveVertices(vec![subject.solved.nodes.vertex(second)]),
                risk: "".into(),
            });
        }
    }
    let (one, other) = (first.min(second) + 1, first.max(second) + 1);
    let what = format!("Vertices {one} and {other} lie in one place, so there is no leg between them");
    finding(straight_to(subject, first), distance_mm, 0.0, Unit::Millimetre, what, cures)
}

fn fold_back(subject: &Subject, vertex: usize) -> Finding {
    let mut place = straight_to(subject, vertex);
    if let Some(next) = place.bend.and_then(|bend| subject.solved.centreline.straight(bend + 1)) {
        place.to_mm = place.to_mm.max(next.to_mm());
    }
    let number = vertex + 1;
    let cures = vec![Cure {
        label: format!("Remove vertex {number}"),
        edit: Edit::RemoveVertices(vec![subject.solved.nodes.vertex(vertex)]),
        risk: "The path then goes straight between its neighbours.".into(),
    }];
    let what = format!("At vertex {number} the path turns straight back on itself, and no bend does that");
    finding(place, 180.0, 180.0, Unit::Degree, what, cures)
}
