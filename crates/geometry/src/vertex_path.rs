//! The vertex form of a centreline: the points where neighbouring straights would meet.

use nalgebra::Point3;

use crate::refusal::{guard_bends, guard_mm};
use crate::{LARGEST_MM, Length, Refusal};

/// A centreline as vertices P0..Pn with a centreline radius at every interior vertex.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct VertexPath {
    points: Vec<Point3<f64>>,
    clr: Vec<Length>,
}

impl VertexPath {
    /// Takes vertices (mm) and one centreline radius for each interior vertex.
    ///
    /// # Errors
    /// Refuses a coordinate that is not finite or beyond [`LARGEST_MM`], a radius that is not between
    /// 0 and [`LARGEST_MM`], and a number of radii other than the number of interior vertices, and more than [`MOST_BENDS`](crate::MOST_BENDS) of them.
    pub fn new(points: Vec<Point3<f64>>, clr: Vec<Length>) -> Result<Self, Refusal> {
        let interior = points.len().saturating_sub(2);
        guard_bends(interior)?;
        if clr.len() != interior {
            return Err(Refusal::new(
                "the number of centreline radii",
                clr.len().to_string(),
                format!("{interior}, one for each vertex between the ends"),
            ));
        }
        let path = Self { points, clr };
        path.check()?;
        Ok(path)
    }

    /// Whether every number is one that [`Self::new`] takes, as it may not be where the path came out of another.
    ///
    /// # Errors
    /// Those of [`Self::new`] about a number.
    pub fn check(&self) -> Result<(), Refusal> {
        for (index, point) in self.points.iter().enumerate() {
            for (axis, value_mm) in ["x", "y", "z"].into_iter().zip(point.iter()) {
                guard_mm(|| format!("vertex {}, {axis}", index + 1), *value_mm, -LARGEST_MM, LARGEST_MM)?;
            }
        }
        for (index, radius) in self.clr.iter().enumerate() {
            guard_mm(|| format!("the centreline radius at vertex {}", index + 2), radius.mm(), 0.0, LARGEST_MM)?;
        }
        Ok(())
    }

    /// A path that is known to be sound, from the conversion of another.
    pub(crate) fn trusted(points: Vec<Point3<f64>>, clr: Vec<Length>) -> Self {
        Self { points, clr }
    }

    /// The vertices, mm, from the lead end to the tail.
    pub fn points(&self) -> &[Point3<f64>] {
        &self.points
    }

    /// The centreline radii, the first one at the second vertex.
    pub fn clr(&self) -> &[Length] {
        &self.clr
    }

    /// The same path from the other end.
    pub fn reversed(&self) -> Self {
        let mut path = self.clone();
        path.points.reverse();
        path.clr.reverse();
        path
    }
}
