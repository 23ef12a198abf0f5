//! What was measured on a bent piece: points or bend rows.

use elbowroom_geometry::{Angle, Length, Point3};

/// What was measured on a piece, from the lead end of the drawing to its tail.
#[derive(Clone, Debug, PartialEq)]
pub enum Measurement {
    /// Both ends and, for each bend, the point where the middles of its straights would meet; or, for a bend
    /// of near half a turn or more ([`BY_ARC_ENDS_FROM`](crate::first_off::points::BY_ARC_ENDS_FROM)), the two
    /// points on those middles where its arc begins and where it ends. mm, in any axes.
    Points(Vec<Point3<f64>>),
    /// The bends as a machine would bend them, and the straight behind the last one.
    Rows(Vec<MeasuredRow>, Length),
}

/// One measured bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredRow {
    /// The straight before the bend.
    pub straight: Length,
    /// Rotation since the bend before; that of the first bend says nothing.
    pub rotation: Angle,
    /// Bend angle.
    pub angle: Angle,
}

impl Measurement {
    /// The same, from the other end.
    #[must_use]
    pub fn turned_round(&self) -> Self {
        match self {
            Self::Points(points) => Self::Points(points.iter().rev().copied().collect()),
            Self::Rows(rows, tail) => {
                let turned = |index: usize| {
                    let next = rows.get(index + 1);
                    MeasuredRow {
                        straight: next.map_or(*tail, |next| next.straight),
                        // Rotations keep value and sign (G05), and move to the bend that now comes second.
                        rotation: next.map_or(Angle::ZERO, |next| next.rotation),
                        angle: rows[index].angle,
                    }
                };
                let last = rows.first().map_or(*tail, |first| first.straight);
                Self::Rows((0..rows.len()).rev().map(turned).collect(), last)
            }
        }
    }
}
