//! Bends, straights and ends as the drawing names them, whichever end is bent first.
//!
//! A part that is bent from its finish is solved turned round, so that everything counts in the order of
//! bending. A person has the drawing in hand: texts speak of its bends, and say "between bends 2 and 3" where
//! "before bend 3" would mean the other side of it.

use std::fmt;

use super::{SAME_MM, Subject};
use crate::End;

/// A bend, a straight or a place between two bends as it is called in a sentence. Written only into the
/// sentence: texts are most of the time that a faulty part takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Name {
    words: &'static str,
    number: Option<usize>,
    and: Option<usize>,
}

impl Name {
    const fn words(words: &'static str) -> Self {
        Self { words, number: None, and: None }
    }

    const fn of(words: &'static str, number: usize) -> Self {
        Self { words, number: Some(number), and: None }
    }

    const fn between(words: &'static str, first: usize, second: usize) -> Self {
        Self { words, number: Some(first), and: Some(second) }
    }
}

impl fmt::Display for Name {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.words)?;
        if let Some(number) = self.number {
            number.fmt(out)?;
        }
        if let Some(and) = self.and {
            out.write_str(" and ")?;
            and.fmt(out)?;
        }
        Ok(())
    }
}

impl Subject<'_> {
    /// Whether the part is the drawing turned round.
    pub(crate) fn is_turned(&self) -> bool {
        self.from == End::Finish
    }

    /// The number of a bend on the drawing, from 1.
    pub(crate) fn number(&self, index: usize) -> usize {
        match self.from {
            End::Start => index + 1,
            End::Finish => self.solved.bends.len().saturating_sub(index),
        }
    }

    /// A bend by its number on the drawing.
    pub(crate) fn bend(&self, index: usize) -> Name {
        Name::of("bend ", self.number(index))
    }

    /// A bend at the beginning of a sentence.
    pub(crate) fn capital_bend(&self, index: usize) -> Name {
        Name::of("Bend ", self.number(index))
    }

    /// The number of a vertex on the drawing, from 1, out of so many.
    pub(crate) fn vertex(&self, index: usize, vertices: usize) -> usize {
        match self.from {
            End::Start => index + 1,
            End::Finish => vertices.saturating_sub(index),
        }
    }

    /// A length along the tube, mm from the tip of the drawing.
    pub(crate) fn along_mm(&self, at_mm: f64) -> f64 {
        match self.from {
            End::Start => at_mm,
            End::Finish => self.solved.developed_length_mm - at_mm,
        }
    }

    /// Where the straight lies on which the clamp of a bend closes: `before bend 3`, or `between bends 3
    /// and 4` where the drawing is bent from its finish.
    pub(crate) fn ahead(&self, index: usize) -> Name {
        match (self.from, self.bend_before(index)) {
            (End::Start, _) => Name::of("before bend ", self.number(index)),
            (End::Finish, Some(before)) => Name::between("between bends ", self.number(index), self.number(before)),
            (End::Finish, None) => Name::of("after bend ", self.number(index)),
        }
    }

    /// The same in a sentence that has named the bend already: `the straight before it`.
    pub(crate) fn straight_ahead(&self, index: usize) -> Name {
        match (self.from, self.bend_before(index)) {
            (End::Start, _) => Name::words("the straight before it"),
            (End::Finish, Some(before)) => {
                Name::between("the straight between bends ", self.number(index), self.number(before))
            }
            (End::Finish, None) => Name::of("the straight after bend ", self.number(index)),
        }
    }

    /// The part of the tube that moves when the straight ahead of a bend changes, as the drawing is held at
    /// its start: `beyond bend 3`.
    pub(crate) fn beyond(&self, index: usize) -> Name {
        match (self.from, self.bend_before(index)) {
            (End::Start, _) => Name::of("beyond bend ", self.number(index)),
            (End::Finish, Some(before)) => Name::of("beyond bend ", self.number(before)),
            (End::Finish, None) => Name::words("at the finish"),
        }
    }

    /// A straight by its place.
    pub(crate) fn straight(&self, index: usize) -> Name {
        let bends = self.solved.bends.len();
        match self.from {
            End::Start if bends > 0 && index == bends => Name::of("the tail after bend ", index),
            End::Start => Name::of("the straight before bend ", index + 1),
            End::Finish if index == 0 => Name::of("the tail after bend ", bends),
            End::Finish if index >= bends => Name::of("the straight before bend ", 1),
            End::Finish => Name::between("the straight between bends ", bends - index, bends - index + 1),
        }
    }

    /// The bend or straight in which a length along the tube lies, given as the last bend that can be
    /// meant: arcs before straights, so that a tangent point belongs to its bend.
    pub(crate) fn element_at(&self, at_mm: f64, last_bend: usize) -> Name {
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
        Name::words(self.leg(End::Start))
    }

    /// An end in the order of bending, with its name on the drawing where that is the other one.
    pub(crate) const fn end(&self, end: End) -> &'static str {
        match (self.from, end) {
            (End::Start, End::Start) => "lead end",
            (End::Start, End::Finish) => "tail",
            (End::Finish, End::Start) => "lead end (the finish)",
            (End::Finish, End::Finish) => "tail (the start)",
        }
    }

    /// The leg at an end.
    pub(crate) const fn leg(&self, end: End) -> &'static str {
        match (self.from, end) {
            (End::Start, End::Start) => "the lead leg",
            (End::Start, End::Finish) => "the tail",
            (End::Finish, End::Start) => "the leg at the finish",
            (End::Finish, End::Finish) => "the leg at the start",
        }
    }

    /// What a longer leg does.
    pub(crate) const fn moves_out(&self, end: End) -> &'static str {
        match (self.from, end) {
            (End::Start, End::Start) => "The lead end moves out.",
            (End::Start, End::Finish) => "The tail end moves out.",
            (End::Finish, End::Start) => "The finish moves out.",
            (End::Finish, End::Finish) => "The start moves out.",
        }
    }
}
