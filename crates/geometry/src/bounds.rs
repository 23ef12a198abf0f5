//! Boxes round the centreline and round the tube, exact for arcs.

use crate::{Centreline, Element, ElementKind, Point3, Vector3};

/// A box with sides along the axes, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoundingBox {
    /// The corner with the smallest coordinates, mm.
    pub min: Point3<f64>,
    /// The corner with the largest coordinates, mm.
    pub max: Point3<f64>,
}

impl BoundingBox {
    /// A box that holds one point.
    pub fn of_point(point: Point3<f64>) -> Self {
        Self { min: point, max: point }
    }

    /// The smallest box that holds both.
    pub fn union(&self, other: &Self) -> Self {
        Self {
            min: Point3::from(self.min.coords.inf(&other.min.coords)),
            max: Point3::from(self.max.coords.sup(&other.max.coords)),
        }
    }

    /// The middle, mm.
    pub fn centre(&self) -> Point3<f64> {
        nalgebra::center(&self.min, &self.max)
    }

    /// Edge lengths along x, y and z, mm.
    pub fn size(&self) -> Vector3<f64> {
        self.max - self.min
    }

    /// Squared distance between two boxes, mm²; 0 where they touch.
    pub fn distance_squared(&self, other: &Self) -> f64 {
        let mut sum = 0.0;
        for axis in 0..3 {
            let apart = (other.min[axis] - self.max[axis]).max(self.min[axis] - other.max[axis]).max(0.0);
            sum += apart * apart;
        }
        sum
    }
}

impl Centreline {
    /// The box of the centreline itself. Straights of negative length count for nothing.
    pub fn bounding_box(&self) -> BoundingBox {
        self.box_of(0.0)
    }

    /// The box of the tube's outside: of all discs of diameter `od_mm` that stand square on the
    /// centreline, ends included and cut off square there. A diameter that is not positive counts as 0.
    pub fn tube_bounding_box(&self, od_mm: f64) -> BoundingBox {
        self.box_of(if od_mm > 0.0 { od_mm / 2.0 } else { 0.0 })
    }

    fn box_of(&self, tube_mm: f64) -> BoundingBox {
        let drawn = self.elements().iter().filter(|element| element.length_mm >= 0.0);
        drawn
            .map(|element| element.bounding_box(tube_mm))
            .reduce(|one, other| one.union(&other))
            .unwrap_or_else(|| BoundingBox::of_point(self.elements()[0].start.origin))
    }
}

impl Element {
    /// The box of this element's discs of radius `tube_mm`.
    pub(crate) fn bounding_box(&self, tube_mm: f64) -> BoundingBox {
        let mut held = BoundingBox::of_point(self.start.origin);
        let end = self.end();
        for axis in 0..3 {
            let mut take = |at: f64, tangent: f64| {
                let reach = tube_mm * (1.0 - tangent * tangent).max(0.0).sqrt();
                held.min[axis] = held.min[axis].min(at - reach);
                held.max[axis] = held.max[axis].max(at + reach);
            };
            take(self.start.origin[axis], self.start.tangent[axis]);
            take(end.origin[axis], end.tangent[axis]);
            if let ElementKind::Arc { radius_mm, angle_rad } = self.kind {
                for turn in self.turning_points(axis) {
                    let turn = turn.rem_euclid(std::f64::consts::TAU);
                    if turn < angle_rad {
                        let frame = self.start.bent(radius_mm, turn);
                        take(frame.origin[axis], frame.tangent[axis]);
                    }
                }
            }
        }
        held
    }

    /// The two angles (rad) along an arc, half a turn apart, at which a coordinate of its discs is extreme.
    ///
    /// Derived here: a disc reaches x ± r√(1 − T²), T and N being the coordinates of tangent and normal.
    /// Its derivative T (R ∓ r N/√(1 − T²)) is zero where the tangent lies square to the axis. Its other
    /// zeros, which need R < r, lie between those and are never the farthest.
    fn turning_points(&self, axis: usize) -> [f64; 2] {
        let square = (-self.start.tangent[axis]).atan2(self.start.normal[axis]);
        [square, square + std::f64::consts::PI]
    }
}
