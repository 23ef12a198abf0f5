//! The tube ahead of a bend, as the straight cavity of its clamp meets it.
//!
//! Everything is measured in the plane across the clamp's axis: the tube ahead is walked backwards from
//! the end of the straight, and its offset from the axis is a plane vector. Its first component points to
//! the inside of the bend being made (the die), its second along that bend's axis. Derived here; in a
//! single arc it reduces to R(1 - cos(s/R)), the sagitta of G07.

use std::f64::consts::PI;

use elbowroom_geometry::Frame;
use nalgebra::Vector2;

use super::arc_offset::ArcOffset;
use super::order::InOrder;
use crate::model::nearly::is_bend;

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
    /// The first arc: it leaves the axis tangentially, rolled so far about it.
    FirstArc { radius_mm: f64, roll_rad: f64 },
    /// Any later arc.
    Arc(ArcOffset),
    /// A straight, with the rate at which it leaves the axis.
    Straight { from: Vector2<f64>, rate: Vector2<f64> },
}

/// Walks the tube ahead of `bend`, from the end of the arc made before it towards the end that is bent first.
///
/// `lead_trim_mm` of straight tube lies beyond the row that is made first. A negative straight is a jump: it has no
/// length on the tube but moves what lies beyond.
pub(crate) fn walk(order: &InOrder, bend: usize, lead_trim_mm: f64, question: &Question) -> Answer {
    let mut search = Search::of(question);
    pieces(order, bend, lead_trim_mm, |piece, length_mm| {
        search.take(piece, length_mm);
        !search.is_over()
    });
    search.answer()
}

/// Visits the pieces of a walk with their lengths, all above 0, as long as `visit` wants more.
fn pieces(order: &InOrder, bend: usize, lead_trim_mm: f64, mut visit: impl FnMut(&Piece, f64) -> bool) {
    let mut frame = Frame::world();
    // Only an arc looks at the roll, so rows of no angle cost next to nothing.
    let mut roll_rad = -order.rotation_ahead_rad(bend);
    let mut first = true;
    let mut next = order.before(bend);
    while let Some(index) = next {
        let row = &order.rows[index];
        next = order.before(index);
        if is_bend(row) {
            let (radius_mm, angle_rad) = (row.clr.mm(), row.angle.radians());
            let arc_mm = radius_mm * angle_rad;
            // Most walks end on the first arc, before any frame is carried along.
            if first && arc_mm > 0.0 && !visit(&Piece::FirstArc { radius_mm, roll_rad }, arc_mm) {
                return;
            }
            frame = frame.rolled(roll_rad);
            roll_rad = 0.0;
            if !first && arc_mm > 0.0 {
                let arc = ArcOffset {
                    from: across(&frame.origin.coords),
                    along: -across(&frame.tangent),
                    inward: across(&frame.normal),
                    radius_mm,
                };
                if !visit(&Piece::Arc(arc), arc_mm) {
                    return;
                }
            }
            frame = frame.bent(radius_mm, -angle_rad);
            first = false;
        }
        // Rows of no angle between the bend and the first arc belong to the straight the clamp lies on.
        if !first {
            let straight_mm = order.straight_ahead_mm(index) + if next.is_none() { lead_trim_mm } else { 0.0 };
            if straight_mm > 0.0 {
                let piece = Piece::Straight { from: across(&frame.origin.coords), rate: -across(&frame.tangent) };
                if !visit(&piece, straight_mm) {
                    return;
                }
            }
            if straight_mm != 0.0 {
                frame = frame.advanced(-straight_mm);
            }
        }
        roll_rad -= order.rotation_ahead_rad(index);
    }
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
    put_off: Vec<PutOff>,
}

/// An arc under the clamp whose ends have been looked at and whose inside has not: of the thousands that may lie
/// under a clamp, few can hold the largest offset.
struct PutOff {
    arc: ArcOffset,
    /// Where it begins, mm past the end of the straight.
    from_mm: f64,
    /// How much of it lies under the clamp, mm.
    under_mm: f64,
    /// What its offset does not exceed, mm.
    bound_mm: f64,
}

impl Search {
    fn of(question: &Question) -> Self {
        Self { question: *question, from_mm: 0.0, bite_mm: 0.0, answer: Answer::none(), put_off: Vec::new() }
    }

    /// Looks at the next piece, of a length above 0.
    fn take(&mut self, piece: &Piece, length_mm: f64) {
        let under_mm = (self.question.overlap_mm - self.from_mm).min(length_mm);
        if under_mm > 0.0 {
            if let Piece::Arc(arc) = piece {
                let (end, bound_mm) = arc.end_and_bound(under_mm);
                self.see(self.from_mm, arc.from);
                self.see(self.from_mm + under_mm, end);
                if bound_mm > self.bite_mm {
                    self.put_off.push(PutOff { arc: *arc, from_mm: self.from_mm, under_mm, bound_mm });
                }
            } else {
                let (at_mm, offset) = piece.furthest(under_mm);
                self.see(self.from_mm + at_mm, offset);
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

    /// Takes an offset for the bite if it is the largest so far.
    fn see(&mut self, at_mm: f64, offset: Vector2<f64>) {
        let distance_mm = offset.norm();
        if distance_mm > self.bite_mm {
            self.bite_mm = distance_mm;
            self.answer.bite = offset;
            self.answer.bite_at_mm = at_mm;
        }
    }

    /// What was found, once the arcs that were put off and can still matter have been looked at.
    fn answer(mut self) -> Answer {
        for PutOff { arc, from_mm, under_mm, bound_mm } in std::mem::take(&mut self.put_off) {
            if bound_mm > self.bite_mm {
                let (at_mm, offset) = arc.furthest(under_mm);
                self.see(from_mm + at_mm, offset);
            }
        }
        self.answer
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
            Self::FirstArc { radius_mm, roll_rad } => {
                let turned = (length_mm / radius_mm).min(PI);
                let towards = across(&Frame::world().rolled(*roll_rad).normal);
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

#[cfg(test)]
mod tests {
    use elbowroom_geometry::{Angle, BendRow, Length};
    use proptest::prelude::*;

    use super::*;
    use crate::End;

    /// The same without leaving anything out: every piece is looked at as closely as any.
    fn patient(order: &InOrder, bend: usize, lead_trim_mm: f64, question: &Question) -> (f64, [Option<f64>; 2]) {
        let (mut from_mm, mut bite_mm, mut crossings_mm) = (0.0, 0.0_f64, [None; 2]);
        pieces(order, bend, lead_trim_mm, |piece, length_mm| {
            let under_mm = (question.overlap_mm - from_mm).min(length_mm);
            if under_mm > 0.0 {
                bite_mm = bite_mm.max(piece.furthest(under_mm).1.norm());
            }
            let within_mm = (question.reach_mm - from_mm).min(length_mm);
            if within_mm > 0.0 {
                for (limit_mm, crossing) in question.limits_mm.iter().zip(&mut crossings_mm) {
                    let found = match piece {
                        Piece::Arc(arc) => arc.crossing(*limit_mm, within_mm),
                        other => other.first_beyond(*limit_mm, within_mm),
                    };
                    *crossing = crossing.or(found.map(|at_mm| from_mm + at_mm));
                }
            }
            from_mm += length_mm;
            from_mm < question.overlap_mm.max(question.reach_mm)
        });
        (bite_mm, crossings_mm)
    }

    proptest! {
        #[test]
        fn leaving_out_what_cannot_matter_changes_nothing(
            rows in prop::collection::vec(
                (prop_oneof![0.0..4.0f64, -3.0..60.0], prop_oneof![Just(0.0), -180.0..180.0f64],
                 prop_oneof![0.05..3.0f64, 0.05..300.0], prop_oneof![Just(76.2), 1.0..150.0f64]), 2..80),
            (reach_mm, share, free_mm, most_mm) in (20.0..200.0f64, 0.0..1.0f64, 0.05..1.0f64, 1.0..8.0f64)
        ) {
            let rows: Vec<BendRow> = rows.into_iter().map(|(straight, rotation, angle, clr)| BendRow {
                straight: Length::from_mm(straight),
                rotation: Angle::from_degrees(rotation),
                angle: Angle::from_degrees(angle),
                clr: Length::from_mm(clr),
            }).collect();
            let question = Question { overlap_mm: reach_mm * share, reach_mm, limits_mm: [free_mm, most_mm] };
            let order = InOrder { rows: &rows, tail: Length::ZERO, from: End::Start };
            let answer = walk(&order, rows.len() - 1, 10.0, &question);
            let (bite_mm, crossings_mm) = patient(&order, rows.len() - 1, 10.0, &question);
            prop_assert!((answer.bite.norm() - bite_mm).abs() < 1e-9, "{} {bite_mm}", answer.bite.norm());
            for (found, wanted) in answer.crossings_mm.iter().zip(crossings_mm) {
                prop_assert_eq!(found.is_some(), wanted.is_some());
                prop_assert!(found.zip(wanted).is_none_or(|(a, b)| (a - b).abs() < 1e-6), "{:?} {:?}", found, wanted);
            }
        }
    }
}
