//! The solved centreline: straights and arcs in order, each with its frame and its place along the tube.

use crate::{BendPath, Frame};

/// What an element of the centreline is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ElementKind {
    /// A straight.
    Straight,
    /// A circular arc towards the normal of its start frame.
    Arc {
        /// Centreline radius, mm.
        radius_mm: f64,
        /// Bend angle.
        angle_rad: f64,
    },
}

/// One straight or arc of the centreline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Element {
    /// Straight or arc.
    pub kind: ElementKind,
    /// Length along the tube at which it starts, mm from the lead end.
    pub from_mm: f64,
    /// Its length along the centreline, mm; negative for a straight where two arcs overlap.
    pub length_mm: f64,
    /// The frame at its start. For an arc the normal points to the centre.
    pub start: Frame,
}

impl Element {
    /// Length along the tube at which it ends, mm.
    pub fn to_mm(&self) -> f64 {
        self.from_mm + self.length_mm
    }

    /// The frame at a distance of `along_mm` from its start.
    pub fn frame_at(&self, along_mm: f64) -> Frame {
        match self.kind {
            ElementKind::Arc { radius_mm, angle_rad } if self.length_mm > 0.0 => {
                let share = along_mm / self.length_mm;
                self.start.bent(radius_mm, if share == 1.0 { angle_rad } else { angle_rad * share })
            }
            ElementKind::Arc { radius_mm, angle_rad } => self.start.bent(radius_mm, angle_rad),
            ElementKind::Straight => self.start.advanced(along_mm),
        }
    }

    /// The frame at a share (0 to 1) of its length, or of its angle where a bend has no length.
    pub fn turned(&self, share: f64) -> Frame {
        match self.kind {
            ElementKind::Arc { radius_mm, angle_rad } => self.start.bent(radius_mm, angle_rad * share),
            ElementKind::Straight => self.start.advanced(self.length_mm * share),
        }
    }

    /// The frame at its end.
    pub fn end(&self) -> Frame {
        self.frame_at(self.length_mm)
    }
}

/// A centreline as straights and arcs in turn: straight 0, arc 0, straight 1, … straight n.
///
/// Lengths along the tube are signed sums, so where two arcs overlap the second one starts before the
/// first one ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Centreline {
    elements: Vec<Element>,
    /// For each element the farthest station that it or any element before it ends at, mm.
    reach_mm: Vec<f64>,
}

impl Centreline {
    /// Lays a bend form out in space. Total; the elements number twice the bends and one.
    pub fn of(path: &BendPath) -> Self {
        let mut elements = Vec::with_capacity(2 * path.rows().len() + 1);
        let mut frame = *path.start();
        let mut from_mm = 0.0;
        let mut push = |kind, length_mm: f64, start: Frame| {
            let element = Element { kind, from_mm, length_mm, start };
            from_mm += length_mm;
            elements.push(element);
            element.end()
        };
        for row in path.rows() {
            frame = push(ElementKind::Straight, row.straight.mm(), frame);
            frame = frame.rolled(row.rotation.radians());
            let (radius_mm, angle_rad) = (row.clr.mm(), row.angle.radians());
            frame = push(ElementKind::Arc { radius_mm, angle_rad }, radius_mm * angle_rad, frame);
        }
        push(ElementKind::Straight, path.tail().mm(), frame);
        let mut farthest_mm = f64::NEG_INFINITY;
        let reach = |element: &Element| {
            farthest_mm = farthest_mm.max(element.to_mm());
            farthest_mm
        };
        let reach_mm = elements.iter().map(reach).collect();
        Self { elements, reach_mm }
    }

    /// The farthest station reached up to each element, mm; never falling.
    pub(crate) fn reach_mm(&self) -> &[f64] {
        &self.reach_mm
    }

    /// Straights and arcs in turn, beginning and ending with a straight.
    pub fn elements(&self) -> &[Element] {
        &self.elements
    }

    /// How many bends there are.
    pub fn bends(&self) -> usize {
        self.elements.len() / 2
    }

    /// Straight `index`: the one before bend `index`, or the tail for `index == bends()`.
    pub fn straight(&self, index: usize) -> Option<&Element> {
        self.elements.get(2 * index)
    }

    /// The arc of bend `index`, counted from 0.
    pub fn arc(&self, index: usize) -> Option<&Element> {
        self.elements.get(2 * index + 1)
    }

    /// The frame at the tail end.
    pub fn end(&self) -> Frame {
        self.elements[self.elements.len() - 1].end()
    }

    /// The developed length: all straights (signed) and arcs, mm.
    pub fn length_mm(&self) -> f64 {
        self.elements.last().map_or(0.0, Element::to_mm)
    }
}
