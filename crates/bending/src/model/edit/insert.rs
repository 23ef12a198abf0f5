//! Adding a vertex on a straight.

use elbowroom_geometry::{Angle, BendPath, BendRow, Centreline, Length, Point3};

use super::changed::Changed;
use super::refusal::EditRefusal;
use super::vertices::{Vertices, change};
use crate::model::path::Path;

/// A point this near to the straight lies on it, mm: a nanometre.
const ON_LINE_MM: f64 = 1e-6;

/// Adds a vertex on straight `straight`, at a point, with the radius it gets when it becomes a bend.
pub(super) fn vertex(path: &Path, straight: usize, at: Point3<f64>, clr: Length) -> Result<Changed, EditRefusal> {
    let form = path.bend_form();
    let straights = form.path.rows().len() + 1;
    if straight >= straights {
        return Err(EditRefusal::no_straight(straight, straights));
    }
    match path {
        Path::Vertices(points) => {
            let last = points.points().len().saturating_sub(1);
            let from = straight.checked_sub(1).map_or(0, |bend| form.vertex_of_bend[bend]);
            let to = form.vertex_of_bend.get(straight).copied().unwrap_or(last);
            change(path, |vertices| insert_between(vertices, from, to, at, clr))
        }
        Path::Bends(rows) => match on_the_line(rows, straight, &at, clr)? {
            Some(split) => {
                let places = 0..rows.rows().len() + 2;
                let from = places.clone().map(Some).take(straight + 1);
                let from = from.chain([None]).chain(places.map(Some).skip(straight + 1)).collect();
                Ok(Changed { path: Path::Bends(split), from })
            }
            None => change(path, |vertices| insert_between(vertices, straight, straight + 1, at, clr)),
        },
    }
}

/// Inserts into the nearest leg between two vertices.
fn insert_between(
    vertices: &mut Vertices,
    from: usize,
    to: usize,
    at: Point3<f64>,
    clr: Length,
) -> Result<(), EditRefusal> {
    let points = &vertices.points;
    if points.len() < 2 {
        vertices.insert(points.len(), at);
        return Ok(());
    }
    let near = |leg: &usize| distance_to_leg(&points[*leg], &points[*leg + 1], &at);
    let leg = (from..to.max(from + 1)).min_by(|a, b| near(a).total_cmp(&near(b))).unwrap_or(from);
    vertices.insert(leg + 1, at);
    vertices.clr.insert(leg, clr);
    Ok(())
}

/// Distance of a point from a leg, mm.
fn distance_to_leg(from: &Point3<f64>, to: &Point3<f64>, at: &Point3<f64>) -> f64 {
    let leg = to - from;
    let length_squared = leg.norm_squared();
    let share = if length_squared > 0.0 { ((at - from).dot(&leg) / length_squared).clamp(0.0, 1.0) } else { 0.0 };
    (at - (from + leg * share)).norm()
}

/// In bend form a vertex on the line is a row of no angle; it leaves all other rows as they are.
fn on_the_line(
    path: &BendPath,
    straight: usize,
    at: &Point3<f64>,
    clr: Length,
) -> Result<Option<BendPath>, EditRefusal> {
    let centreline = Centreline::of(path);
    let Some(element) = centreline.straight(straight) else { return Ok(None) };
    let away = at - element.start.origin;
    let along_mm = away.dot(&element.start.tangent);
    let off_mm = (away - element.start.tangent * along_mm).norm();
    if !(off_mm <= ON_LINE_MM && along_mm >= 0.0 && along_mm <= element.length_mm) {
        return Ok(None);
    }
    let along = Length::from_mm(along_mm);
    let mut rows = path.rows().to_vec();
    let mut tail = path.tail();
    match rows.get_mut(straight) {
        Some(row) => row.straight -= along,
        None => tail -= along,
    }
    rows.insert(straight, BendRow { straight: along, rotation: Angle::ZERO, angle: Angle::ZERO, clr });
    Ok(Some(BendPath::new(*path.start(), rows, tail)?))
}
