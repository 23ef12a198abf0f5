//! Bends, straights and ends as the drawing names them, whichever end is bent first.
//!
//! A part that is bent from its finish is solved turned round, so that everything counts in the order of
//! bending. A person has the drawing in hand: texts speak of its bends, and say "between bends 2 and 3" where
//! "before bend 3" would mean the other side of it.

use super::{SAME_MM, Subject};
use crate::End;

impl Subject<'_> {
    /// Whether the part is the drawing turned round.
    pub(crate) fn is_turned(&self) -> bool {
        self.from == End::Tail
    }

    /// The number of a bend on the drawing, from 1.
    pub(crate) fn number(&self, index: usize) -> usize {
        match self.from {
            End::Lead => index + 1,
            End::Tail => self.solved.bends.len().saturating_sub(index),
        }
    }

    /// A bend by its number on the drawing.
    pub(crate) fn bend(&self, index: usize) -> String {
        format!("bend {}", self.number(index))
    }

    /// A bend at the beginning of a sentence.
    pub(crate) fn capital_bend(&self, index: usize) -> String {
        format!("Bend {}", self.number(index))
    }

    /// The number of a vertex on the drawing, from 1, out of so many.
    pub(crate) fn vertex(&self, index: usize, vertices: usize) -> usize {
        match self.from {
            End::Lead => index + 1,
            End::Tail => vertices.saturating_sub(index),
        }
    }

    /// A length along the tube, mm from the tip of the drawing.
    pub(crate) fn along_mm(&self, at_mm: f64) -> f64 {
        match self.from {
            End::Lead => at_mm,
            End::Tail => self.solved.developed_length_mm - at_mm,
        }
    }

    /// Where the straight lies on which the clamp of a bend closes: `before bend 3`, or `between bends 3
    /// and 4` where the drawing is bent from its finish.
    pub(crate) fn ahead(&self, index: usize) -> String {
        match (self.from, self.bend_before(index)) {
            (End::Lead, _) => format!("before {}", self.bend(index)),
            (End::Tail, Some(before)) => format!("between bends {} and {}", self.number(index), self.number(before)),
            (End::Tail, None) => format!("after {}", self.bend(index)),
        }
    }

    /// The same in a sentence that has named the bend already: `the straight before it`.
    pub(crate) fn straight_ahead(&self, index: usize) -> String {
        match self.from {
            End::Lead => "the straight before it".into(),
            End::Tail => format!("the straight {}", self.ahead(index)),
        }
    }

    /// The part of the tube that moves when the straight ahead of a bend changes, as the drawing is held at
    /// its start: `beyond bend 3`.
    pub(crate) fn beyond(&self, index: usize) -> String {
        match (self.from, self.bend_before(index)) {
            (End::Lead, _) => format!("beyond {}", self.bend(index)),
            (End::Tail, Some(before)) => format!("beyond {}", self.bend(before)),
            (End::Tail, None) => "at the finish".into(),
        }
    }

    /// A straight by its place.
    pub(crate) fn straight(&self, index: usize) -> String {
        let bends = self.solved.bends.len();
        match self.from {
            End::Lead if bends > 0 && index == bends => format!("the tail after bend {index}"),
            End::Lead => format!("the straight before bend {}", index + 1),
            End::Tail if index == 0 => format!("the tail after bend {bends}"),
            End::Tail if index >= bends => "the straight before bend 1".into(),
            End::Tail => format!("the straight between bends {} and {}", bends - index, bends - index + 1),
        }
    }

    /// The bend or straight in which a length along the tube lies, given as the last bend that can be
    /// meant: arcs before straights, so that a tangent point belongs to its bend.
    pub(crate) fn element_at(&self, at_mm: f64, last_bend: usize) -> String {
        for index in (0..=last_bend).rev() {
            let arc = &self.solved.bends[index];
            if !arc.is_bent() {
                continue;
            }
            if at_mm > arc.ends_at_mm() + SAME_MM {
                return self.straight(index + 1);
            }
            if at_mm >= arc.starts_at_mm - SAME_MM {
                return self.bend(index);
            }
        }
        self.leg(End::Lead).into()
    }

    /// An end in the order of bending, with its name on the drawing where that is the other one.
    pub(crate) const fn end(&self, end: End) -> &'static str {
        match (self.from, end) {
            (End::Lead, End::Lead) => "lead end",
            (End::Lead, End::Tail) => "tail",
            (End::Tail, End::Lead) => "lead end (the finish)",
            (End::Tail, End::Tail) => "tail (the start)",
        }
    }

    /// The leg at an end.
    pub(crate) const fn leg(&self, end: End) -> &'static str {
        match (self.from, end) {
            (End::Lead, End::Lead) => "the lead leg",
            (End::Lead, End::Tail) => "the tail",
            (End::Tail, End::Lead) => "the leg at the finish",
            (End::Tail, End::Tail) => "the leg at the start",
        }
    }

    /// What a longer leg does.
    pub(crate) fn moves_out(&self, end: End) -> String {
        let which = match (self.from, end) {
            (End::Lead, End::Lead) => "lead end",
            (End::Lead, End::Tail) => "tail end",
            (End::Tail, End::Lead) => "finish",
            (End::Tail, End::Tail) => "start",
        };
        format!("The {which} moves out.")
    }
}
