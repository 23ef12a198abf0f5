//! Changes to a path that keep as much of the rest as they can.

use crate::refusal::guard_mm;
use crate::{BendPath, BendRow, Centreline, Frame, LARGEST_MM, Length, Point3, Refusal, VertexPath};

/// A refusal for a vertex, straight or bend that is not there.
fn no_such(what: &str, index: usize, count: usize) -> Refusal {
    Refusal::new(what, format!("number {}", index + 1), format!("from 1 to {count}"))
}

impl VertexPath {
    /// The path with vertex `index` (counted from 0) at another point, mm.
    ///
    /// # Errors
    /// Refuses a vertex that is not there, and a point that [`VertexPath::new`] refuses.
    pub fn with_vertex_moved(&self, index: usize, to: Point3<f64>) -> Result<Self, Refusal> {
        let mut points = self.points().to_vec();
        let count = points.len();
        *points.get_mut(index).ok_or_else(|| no_such("the vertex", index, count))? = to;
        Self::new(points, self.clr().to_vec())
    }

    /// The path with a new vertex of the given radius on leg `leg`: between vertices `leg` and `leg + 1`.
    ///
    /// # Errors
    /// Refuses a leg that is not there, and numbers that [`VertexPath::new`] refuses.
    pub fn with_vertex_inserted(&self, leg: usize, point: Point3<f64>, clr: Length) -> Result<Self, Refusal> {
        let legs = self.points().len().saturating_sub(1);
        if leg >= legs {
            return Err(no_such("the leg", leg, legs));
        }
        let (mut points, mut radii) = (self.points().to_vec(), self.clr().to_vec());
        points.insert(leg + 1, point);
        radii.insert(leg, clr);
        Self::new(points, radii)
    }

    /// The path without some of its vertices; their neighbours meet directly. Where an end goes, the
    /// vertex next to it becomes the end.
    ///
    /// # Errors
    /// Refuses a vertex that is not there, and to leave fewer than two.
    pub fn without_vertices(&self, indices: &[usize]) -> Result<Self, Refusal> {
        let count = self.points().len();
        if let Some(index) = indices.iter().find(|index| **index >= count) {
            return Err(no_such("the vertex", *index, count));
        }
        let kept: Vec<usize> = (0..count).filter(|index| !indices.contains(index)).collect();
        if kept.len() < 2 {
            return Err(Refusal::new("the number of vertices left", kept.len().to_string(), "2 or more"));
        }
        let points = kept.iter().map(|index| self.points()[*index]).collect();
        let clr = kept[1..kept.len() - 1].iter().map(|index| self.clr()[index - 1]).collect();
        Self::new(points, clr)
    }

    /// The path with another radius at vertex `index`, which stays where it is.
    ///
    /// # Errors
    /// Refuses a vertex that has no radius, and a radius that [`VertexPath::new`] refuses.
    pub fn with_clr(&self, index: usize, clr: Length) -> Result<Self, Refusal> {
        let mut radii = self.clr().to_vec();
        let count = radii.len();
        match index.checked_sub(1).and_then(|interior| radii.get_mut(interior)) {
            Some(held) => *held = clr,
            None => {
                let may_be = format!("one of the {count} between the ends");
                return Err(Refusal::new("the vertex", format!("number {}", index + 1), may_be));
            }
        }
        Self::new(self.points().to_vec(), radii)
    }

    /// The path with straight `straight` (counted from 0, as in the bend form of this path; the last one
    /// is the tail) of another length between its tangent points. Everything beyond keeps its direction
    /// and moves along. Vertices on the straight that carry no bend keep their share of the leg.
    ///
    /// # Errors
    /// Refuses a straight that is not there, a length beyond [`LARGEST_MM`], and one so far below zero
    /// that the two vertices would change places.
    pub fn with_straight(&self, straight: usize, length: Length) -> Result<Self, Refusal> {
        let form = self.to_bend_form();
        let rows = form.path.rows();
        if straight > rows.len() || self.points().len() < 2 {
            return Err(no_such("the straight", straight, rows.len() + 1));
        }
        let last = self.points().len() - 1;
        let from = if straight == 0 { 0 } else { form.vertex_of_bend[straight - 1] };
        let to = form.vertex_of_bend.get(straight).copied().unwrap_or(last);
        let (start, end) = (self.points()[from], self.points()[to]);
        let leg = end - start;
        let leg_mm = leg.norm();
        let was = rows.get(straight).map_or(form.path.tail(), |row| row.straight);
        let tangents_mm = leg_mm - was.mm();
        let field = || format!("straight {}", straight + 1);
        guard_mm(field, length.mm(), -LARGEST_MM, LARGEST_MM)?;
        let new_leg_mm = tangents_mm + length.mm();
        if !(leg_mm > 0.0 && new_leg_mm > 0.0) {
            let was = format!("{} mm", length.mm());
            return Err(Refusal::new(
                field(),
                was,
                format!("more than {:.1} mm, where its vertices meet", -tangents_mm),
            ));
        }
        let shift = leg * ((new_leg_mm - leg_mm) / leg_mm);
        let mut points = self.points().to_vec();
        for point in &mut points[from + 1..to] {
            let share = ((*point - start).dot(&leg) / (leg_mm * leg_mm)).clamp(0.0, 1.0);
            *point += shift * share;
        }
        points[to..].iter_mut().for_each(|point| *point += shift);
        Self::new(points, self.clr().to_vec())
    }
}

impl BendPath {
    /// The path with straight `straight` (counted from 0, the last one is the tail) of another length;
    /// everything beyond keeps its direction and moves along.
    ///
    /// # Errors
    /// Refuses a straight that is not there, and a length that [`BendPath::new`] refuses.
    pub fn with_straight(&self, straight: usize, length: Length) -> Result<Self, Refusal> {
        let mut rows = self.rows().to_vec();
        let mut tail = self.tail();
        let count = rows.len();
        match rows.get_mut(straight) {
            Some(row) => row.straight = length,
            None if straight == count => tail = length,
            None => return Err(no_such("the straight", straight, count + 1)),
        }
        Self::new(*self.start(), rows, tail)
    }

    /// The same tube in space, from the other end. Rotations keep their value and sign (G05), and move to
    /// the bend that now comes second.
    pub fn reversed(&self) -> Self {
        let last = Centreline::of(self);
        let end = last.elements()[last.elements().len() - 1].end();
        // The last bend's centre lies to the same side, whichever way one travels.
        let start = Frame { tangent: -end.tangent, ..end };
        let rows = self.rows();
        let count = rows.len();
        let reversed = |index: usize| {
            let row = &rows[count - 1 - index];
            let before = rows.get(count - index);
            BendRow {
                straight: before.map_or(self.tail(), |next| next.straight),
                rotation: before.map_or(crate::Angle::ZERO, |next| next.rotation),
                ..*row
            }
        };
        let tail = rows.first().map_or(self.tail(), |row| row.straight);
        Self::trusted(start, (0..count).map(reversed).collect(), tail)
    }
}
