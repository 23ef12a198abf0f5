//! The tube ahead of a bend, as the straight cavity of its clamp meets it.
//!
//! Everything is measured in the plane across the clamp's axis: the tube ahead is walked backwards from
//! the end of the straight, and its offset from the axis is a plane vector. Its first component points to
//! the inside of the bend being made (the die), its second along that bend's axis. Derived here; in a
//! single arc it reduces to R(1 - cos(s/R)), the sagitta of G07.

use std::f64::consts::PI;

use elbowroom_geometry::{BendRow, Frame};
use nalgebra::Vector2;

use super::arc_offset::ArcOffset;

/// A turn below this is no bend, radians. It is the figure at which vertices count as collinear.
pub(crate) const NO_BEND_RAD: f64 = 1e-6;

/// Whether a row turns the tube at all.
pub(crate) fn is_bend(row: &BendRow) -> bool {
    row.angle.radians() >= NO_BEND_RAD
}

/// What the walk is to find.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Question {
    /// How far the clamp reaches past the end of the straight, mm.
    pub overlap_mm: f64,
    /// How far past the end of the straight it could ever reach, mm: its whole length.
    pub reach_mm: f64,
    /// Offsets whose first crossing is wanted, mm: what leaves no mark, and what the clamp closes on.
    pub limits_mm: [f64; 2],
}

/// What the walk has found.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Answer {
    /// The largest offset within the overlap, mm, as a vector across the axis.
    pub bite: Vector2<f64>,
    /// Distance past the end of the straight at which it occurs, mm.
    pub bite_at_mm: f64,
    /// For each limit the distance past the end of the straight at which the offset first exceeds it, mm;
    /// `None` where it never does within the reach.
    pub crossings_mm: [Option<f64>; 2],
}

/// A piece of the tube ahead, parametrised by the length from its beginning, walking away from the bend.
enum Piece {
    /// The first arc: it leaves the axis tangentially.
    FirstArc { radius_mm: f64, towards: Vector2<f64> },
    /// Any later arc.
    Arc(ArcOffset),
    /// A straight, with the rate at which it leaves the axis.
    Straight { from: Vector2<f64>, rate: Vector2<f64> },
}

/// Walks the tube ahead of `bend`, from the end of the arc before it towards the lead end.
///
/// `lead_trim_mm` of straight tube lies before the first row. A negative straight is a jump: it has no
/// length on the tube but moves what lies beyond.
pub(crate) fn walk(rows: &[BendRow], bend: usize, lead_trim_mm: f64, question: &Question) -> Answer {
    let mut search = Search { question: *question, from_mm: 0.0, bite_mm: 0.0, answer: Answer::none() };
    let mut frame = Frame::world();
    // Only an arc looks at the roll, so rows of no angle cost next to nothing.
    let mut roll_rad = -rows[bend].rotation.radians();
    let mut first = true;
    for (index, row) in rows[..bend].iter().enumerate().rev() {
        if is_bend(row) {
            frame = frame.rolled(roll_rad);
            roll_rad = 0.0;
            let (radius_mm, angle_rad) = (row.clr.mm(), row.angle.radians());
            let arc_mm = radius_mm * angle_rad;
            if arc_mm > 0.0 {
                let piece = if first {
                    Piece::FirstArc { radius_mm, towards: across(&frame.normal) }
                } else {
                    Piece::Arc(ArcOffset {
                        from: across(&frame.origin.coords),
                        along: -across(&frame.tangent),
                        inward: across(&frame.normal),
                        radius_mm,
                    })
                };
                search.take(&piece, arc_mm);
            }
            if search.is_over() {
                return search.answer;
            }
            frame = frame.bent(radius_mm, -angle_rad);
            first = false;
        }
        // Rows of no angle between the bend and the first arc belong to the straight the clamp lies on.
        if !first {
            let straight_mm = row.straight.mm() + if index == 0 { lead_trim_mm } else { 0.0 };
            if straight_mm > 0.0 {
                let piece = Piece::Straight { from: across(&frame.origin.coords), rate: -across(&frame.tangent) };
                search.take(&piece, straight_mm);
                if search.is_over() {
                    return search.answer;
                }
            }
            if straight_mm != 0.0 {
                frame = frame.advanced(-straight_mm);
            }
        }
        roll_rad -= row.rotation.radians();
    }
    search.answer
}

/// The components of a vector across the clamp's axis.
fn across(vector: &nalgebra::Vector3<f64>) -> Vector2<f64> {
    Vector2::new(vector.y, vector.z)
}

impl Answer {
    fn none() -> Self {
        Self { bite: Vector2::zeros(), bite_at_mm: 0.0, crossings_mm: [None; 2] }
    }
}

/// The state of a walk.
struct Search {
    question: Question,
    from_mm: f64,
    bite_mm: f64,
    answer: Answer,
}

impl Search {
    /// Looks at the next piece, of a length above 0.
    fn take(&mut self, piece: &Piece, length_mm: f64) {
        let under_mm = (self.question.overlap_mm - self.from_mm).min(length_mm);
        if under_mm > 0.0 {
            let (at_mm, offset) = piece.furthest(under_mm);
            let distance_mm = offset.norm();
            if distance_mm > self.bite_mm {
                self.bite_mm = distance_mm;
                self.answer.bite = offset;
                self.answer.bite_at_mm = self.from_mm + at_mm;
            }
        }
        let within_mm = (self.question.reach_mm - self.from_mm).min(length_mm);
        for (limit_mm, crossing) in self.question.limits_mm.iter().zip(&mut self.answer.crossings_mm) {
            if crossing.is_none() {
                *crossing = piece.first_beyond(*limit_mm, within_mm).map(|at_mm| self.from_mm + at_mm);
            }
        }
        self.from_mm += length_mm;
    }

    /// Whether nothing further can change the answer.
    fn is_over(&self) -> bool {
        let seen = self.from_mm >= self.question.overlap_mm;
        seen && (self.from_mm >= self.question.reach_mm || self.answer.crossings_mm.iter().all(Option::is_some))
    }
}

impl Piece {
    /// Where within `length_mm` the offset is largest, and that offset.
    fn furthest(&self, length_mm: f64) -> (f64, Vector2<f64>) {
        match self {
            Self::FirstArc { radius_mm, towards } => {
                let turned = (length_mm / radius_mm).min(PI);
                (turned * radius_mm, towards * (radius_mm * one_minus_cos(turned)))
            }
            Self::Arc(arc) => arc.furthest(length_mm),
            Self::Straight { from, rate } => {
                let end = from + rate * length_mm;
                if end.norm_squared() > from.norm_squared() { (length_mm, end) } else { (0.0, *from) }
            }
        }
    }

    /// Where within `length_mm` the offset first exceeds `limit_mm`.
    fn first_beyond(&self, limit_mm: f64, length_mm: f64) -> Option<f64> {
        let at_mm = match self {
            Self::FirstArc { radius_mm, .. } => {
                // Half-angle form: sin²(φ/2) = limit / 2R stays exact for small bites.
                let share = limit_mm / (2.0 * radius_mm);
                if share >= 1.0 {
                    return None;
                }
                radius_mm * 2.0 * share.max(0.0).sqrt().asin()
            }
            Self::Arc(arc) => return arc.first_beyond(limit_mm, length_mm),
            Self::Straight { from, rate } => {
                let inside = from.norm_squared() - limit_mm * limit_mm;
                if inside > 0.0 {
                    return Some(0.0);
                }
                let (speed, outward) = (rate.norm_squared(), from.dot(rate));
                let root = (outward * outward - speed * inside).max(0.0).sqrt();
                if outward > 0.0 {
                    -inside / (outward + root)
                } else if speed > 0.0 {
                    (root - outward) / speed
                } else {
                    return None;
                }
            }
        };
        (at_mm < length_mm).then_some(at_mm)
    }
}

/// 1 - cos x without cancellation for small x.
fn one_minus_cos(x: f64) -> f64 {
    let half = (x / 2.0).sin();
    2.0 * half * half
}
