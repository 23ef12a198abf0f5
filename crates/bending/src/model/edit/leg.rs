//! The leg between two vertices of a drawing, and the straight on it.

use elbowroom_geometry::{HANDLE_LIMIT, Length, Point3, Vector3, VertexPath};

use super::refusal::EditRefusal;
use super::rows::along;
use super::vertices::Vertices;
use crate::model::end::End;

/// Vertices nearer than this are one, mm: a nanometre, as where vertices become bends.
pub(super) const COINCIDENT_MM: f64 = 1e-6;
/// The place of a vertex is looked for within so many times what the straight has to change by. Farther off it would be
/// another drawing.
const REACH: usize = 6;
/// Into so many parts each of them is divided to look for it.
const PARTS: usize = 8;
/// Halvings until two places are one.
const HALVINGS: usize = 200;

/// A leg of a drawing.
pub(super) struct Leg<'a> {
    path: &'a VertexPath,
    /// The vertices that shape the tube: the one before the leg where there is one, its own two, the one behind it.
    before: Option<usize>,
    from: usize,
    to: usize,
    behind: Option<usize>,
    /// The straight on it as it is, mm.
    straight_mm: f64,
}

impl<'a> Leg<'a> {
    /// The leg of a straight, counted from 0.
    pub fn of(path: &'a VertexPath, straight: usize) -> Result<Self, EditRefusal> {
        let form = path.to_bend_form();
        let (rows, points) = (form.path.rows(), path.points());
        if straight > rows.len() {
            return Err(EditRefusal::no_straight(straight, rows.len() + 1));
        }
        // Of several vertices in one place the first is meant.
        let corner = |bend: usize| form.vertex_of_bend.get(bend).copied();
        let from = straight.checked_sub(1).and_then(corner).unwrap_or(0);
        let to = corner(straight).unwrap_or_else(|| tail_vertex(points, from));
        let before = straight.checked_sub(1).map(|bend| bend.checked_sub(1).and_then(corner).unwrap_or(0));
        let behind = corner(straight).map(|vertex| corner(straight + 1).unwrap_or_else(|| tail_vertex(points, vertex)));
        let straight_mm = rows.get(straight).map_or(form.path.tail(), |row| row.straight).mm();
        Ok(Self { path, before, from, to, behind, straight_mm })
    }

    fn point(&self, vertex: usize) -> Point3<f64> {
        self.path.points()[vertex]
    }

    /// T = R tan(θ/2), mm (G06), at a vertex between two points; `None` where the tube would turn back there.
    fn tangent_mm(&self, vertex: usize, before: &Point3<f64>, at: &Point3<f64>, behind: &Point3<f64>) -> Option<f64> {
        let (into, out) = (at - before, behind - at);
        let angle_rad = into.cross(&out).norm().atan2(into.dot(&out));
        let clr_mm = vertex.checked_sub(1).and_then(|at| self.path.clr().get(at)).map_or(0.0, |clr| clr.mm());
        (into.norm() > COINCIDENT_MM && out.norm() > COINCIDENT_MM && angle_rad < HANDLE_LIMIT.radians())
            .then(|| clr_mm * (angle_rad / 2.0).tan())
    }

    /// The straight where the leg runs from one point to another, mm.
    fn straight_between(&self, from: &Point3<f64>, to: &Point3<f64>) -> Option<f64> {
        let before = match self.before {
            Some(before) => self.tangent_mm(self.from, &self.point(before), from, to)?,
            None => 0.0,
        };
        let behind = match self.behind {
            Some(behind) => self.tangent_mm(self.to, from, to, &self.point(behind))?,
            None => 0.0,
        };
        Some((to - from).norm() - before - behind)
    }

    /// The vertices with the one at an end of the leg moved along it, so that the straight gets a length; what carries no
    /// bend on the legs beside it goes along. `None` where there is no such place near by.
    pub fn with_one_moved(&self, end: End, length: Length) -> Option<Vertices> {
        let (from, to) = (self.point(self.from), self.point(self.to));
        let leg = to - from;
        let leg_mm = leg.norm();
        if leg_mm < COINCIDENT_MM {
            return None;
        }
        let direction = leg / leg_mm;
        let ends = |leg_mm: f64| match end {
            End::Finish => (from, from + direction * leg_mm),
            End::Start => (to - direction * leg_mm, to),
        };
        let missing_mm = |leg_mm: f64| {
            let (from, to) = ends(leg_mm);
            (leg_mm > COINCIDENT_MM).then(|| self.straight_between(&from, &to)).flatten().map(|now| length.mm() - now)
        };
        let new_leg_mm = nearest_root(leg_mm, length.mm() - self.straight_mm, missing_mm)?;
        let (new_from, new_to) = ends(new_leg_mm);
        let mut vertices = Vertices::of(self.path);
        let mut laid_along = |first: usize, last: usize, is: [&Point3<f64>; 2]| {
            let was = [&self.point(first), &self.point(last)];
            for vertex in first + 1..last {
                vertices.points[vertex] = along(&self.point(vertex), was, is);
            }
        };
        match (end, self.before, self.behind) {
            (End::Finish, _, Some(behind)) => laid_along(self.to, behind, [&new_to, &self.point(behind)]),
            (End::Start, Some(before), _) => laid_along(before, self.from, [&self.point(before), &new_from]),
            _ => {}
        }
        self.keep_on_the_leg(&mut vertices, end, &direction, new_leg_mm, leg_mm);
        (vertices.points[self.from], vertices.points[self.to]) = (new_from, new_to);
        Some(vertices)
    }

    /// Vertices on the leg itself stay where they are, unless it shrinks past one.
    fn keep_on_the_leg(
        &self,
        vertices: &mut Vertices,
        end: End,
        direction: &Vector3<f64>,
        new_leg_mm: f64,
        leg_mm: f64,
    ) {
        let (base, outward) = match end {
            End::Finish => (self.point(self.from), *direction),
            End::Start => (self.point(self.to), -*direction),
        };
        let on_it = &mut vertices.points[self.from + 1..self.to];
        let outermost_mm = on_it.iter().map(|point| (*point - base).dot(&outward)).fold(0.0, f64::max);
        if outermost_mm >= new_leg_mm {
            on_it.iter_mut().for_each(|point| *point = base + (*point - base) * (new_leg_mm / leg_mm));
        }
    }
}

/// Where a function of a length is 0, nearest to where it is `there` now. It is looked at in steps on both sides, and halved
/// between two of different sign.
fn nearest_root(from: f64, there: f64, of: impl Fn(f64) -> Option<f64>) -> Option<f64> {
    if there == 0.0 {
        return Some(from);
    }
    let step = there.abs() / PARTS as f64;
    let (mut low, mut high) = ((from, there), (from, there));
    let (mut low_ends, mut high_ends) = (false, false);
    for part in 1..=REACH * PARTS {
        for (side, last, ends) in [(1.0, &mut high, &mut high_ends), (-1.0, &mut low, &mut low_ends)] {
            if *ends {
                continue;
            }
            let at = from + side * step * part as f64;
            let Some(value) = of(at) else {
                *ends = true;
                continue;
            };
            if value == 0.0 || (value > 0.0) != (last.1 > 0.0) {
                return halved(*last, (at, value), &of);
            }
            *last = (at, value);
        }
    }
    None
}

fn halved(mut one: (f64, f64), mut other: (f64, f64), of: &impl Fn(f64) -> Option<f64>) -> Option<f64> {
    for _ in 0..HALVINGS {
        let middle = (one.0 + other.0) / 2.0;
        if middle == one.0 || middle == other.0 {
            break;
        }
        let value = of(middle)?;
        if (value > 0.0) == (one.1 > 0.0) {
            one = (middle, value);
        } else {
            other = (middle, value);
        }
    }
    Some(if one.1.abs() < other.1.abs() { one.0 } else { other.0 })
}

/// The vertex at which the tail ends: the last one, or the first of several that coincide with it.
pub(super) fn tail_vertex(points: &[Point3<f64>], from: usize) -> usize {
    let Some((last, before)) = points.split_last() else { return 0 };
    let same = before.iter().skip(from + 1).rev().take_while(|point| (*point - last).norm() < COINCIDENT_MM).count();
    points.len() - 1 - same
}
