//! From a length along the tube to the place, direction and frame there.
//!
//! A length along the tube is called its station, mm from the lead end. Stations are signed sums, so
//! where two arcs overlap (a negative straight) some stations occur twice; the first element wins.

use crate::{Centreline, Element, Frame, Point3, Vector3};

impl Centreline {
    /// The lowest and the highest station that lie on the tube, mm: 0 and the developed length, but for
    /// parts that begin or end with a negative straight.
    pub fn stations_mm(&self) -> (f64, f64) {
        let first = self.elements().iter().find(|element| element.length_mm >= 0.0);
        (first.map_or(0.0, |element| element.from_mm), self.reach_mm().last().copied().unwrap_or(0.0))
    }

    /// The number of the element that holds a station: the first one that reaches it, and never a
    /// negative straight unless there is nothing else. Stations beyond the ends belong to the end
    /// elements; NaN to the first.
    pub fn element_at(&self, station_mm: f64) -> usize {
        // The reach never falls, and where it first attains the station, the element itself ends there.
        let found = self.reach_mm().partition_point(|reach| *reach < station_mm);
        let last = self.elements().len() - 1;
        let drawn = |index: &usize| self.elements()[*index].length_mm >= 0.0;
        let found = found.min(last);
        (found..=last).find(drawn).or_else(|| (0..found).rev().find(drawn)).unwrap_or(found)
    }

    /// The frame at a station (mm), clamped to the ends of the tube. Between two elements it is the end
    /// frame of the first, so the rotation before a bend counts from the bend on.
    pub fn frame_at(&self, station_mm: f64) -> Frame {
        let element = &self.elements()[self.element_at(station_mm)];
        element.frame_at(element.along_mm(station_mm))
    }

    /// The point at a station (mm), clamped to the ends of the tube.
    pub fn point_at(&self, station_mm: f64) -> Point3<f64> {
        self.frame_at(station_mm).origin
    }

    /// The unit direction of travel at a station (mm), clamped to the ends of the tube.
    pub fn tangent_at(&self, station_mm: f64) -> Vector3<f64> {
        self.frame_at(station_mm).tangent
    }
}

impl Element {
    /// How far a station (mm) lies from the start of this element, clamped to the element.
    pub fn along_mm(&self, station_mm: f64) -> f64 {
        let along = station_mm - self.from_mm;
        // Written so that NaN gives the start, and the end station gives the end to the bit.
        if station_mm == self.to_mm() {
            self.length_mm
        } else if along > self.length_mm.min(0.0) {
            along.min(self.length_mm.max(0.0))
        } else if along.is_nan() {
            0.0
        } else {
            self.length_mm.min(0.0)
        }
    }
}
