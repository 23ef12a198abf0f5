//! The point of the centreline nearest to a given point.

use std::f64::consts::TAU;

use crate::{Centreline, Element, ElementKind, Point3};

/// Where the centreline comes nearest to a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closest {
    /// Station of that place, mm along the tube.
    pub station_mm: f64,
    /// Its distance from the point, mm.
    pub distance_mm: f64,
    /// Number of the element it lies on: even for straights, odd for arcs.
    pub element: usize,
    /// The place itself, mm.
    pub point: Point3<f64>,
}

impl Centreline {
    /// The place of the centreline nearest to `point`, in closed form on each element; the first where
    /// several are as near. Straights of negative length are passed over unless there is nothing else.
    pub fn closest_point(&self, point: &Point3<f64>) -> Closest {
        let on = |(index, element): (usize, &Element)| {
            let (along_mm, place) = element.closest(point);
            Closest {
                station_mm: element.from_mm + along_mm,
                distance_mm: (place - point).norm(),
                element: index,
                point: place,
            }
        };
        let drawn = self.elements().iter().enumerate().filter(|(_, element)| element.length_mm >= 0.0);
        drawn
            .map(on)
            .reduce(|best, next| if next.distance_mm < best.distance_mm { next } else { best })
            .unwrap_or_else(|| on((0, &self.elements()[0])))
    }
}

impl Element {
    /// The place of this element nearest to a point: how far along it (mm), and where.
    pub(crate) fn closest(&self, point: &Point3<f64>) -> (f64, Point3<f64>) {
        let from_start = point - self.start.origin;
        match self.kind {
            ElementKind::Straight => {
                let (low, high) = (self.length_mm.min(0.0), self.length_mm.max(0.0));
                let along = from_start.dot(&self.start.tangent);
                // NaN falls to the start.
                let along = if along > low { along.min(high) } else { low };
                (along, self.start.origin + self.start.tangent * along)
            }
            ElementKind::Arc { radius_mm, angle_rad } => {
                let ahead = from_start.dot(&self.start.tangent);
                let beside = radius_mm - from_start.dot(&self.start.normal);
                let turn = ahead.atan2(beside);
                let turn = if turn < 0.0 { turn + TAU } else { turn };
                if turn <= angle_rad {
                    return (radius_mm * turn, self.arc_point(radius_mm, turn));
                }
                let end = self.arc_point(radius_mm, angle_rad);
                if (end - point).norm_squared() < from_start.norm_squared() {
                    (self.length_mm, end)
                } else {
                    (0.0, self.start.origin)
                }
            }
        }
    }

    /// The point of an arc at an angle from its start.
    pub(crate) fn arc_point(&self, radius_mm: f64, turn_rad: f64) -> Point3<f64> {
        let (sin, cos) = turn_rad.sin_cos();
        self.start.origin + (self.start.tangent * sin + self.start.normal * (1.0 - cos)) * radius_mm
    }
}
