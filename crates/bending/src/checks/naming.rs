//! Bends, straights and ends as a person with the drawing in hand calls them.
//!
//! Where the drawing is bent from its finish, "before bend 3" would mean the other side of it than on the machine:
//! texts then say "between bends 2 and 3".

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
    /// The end that is bent first.
    pub(crate) fn from(&self) -> End {
        self.solved.from
    }

    /// Whether the finish of the drawing is bent first.
    pub(crate) fn is_from_finish(&self) -> bool {
        self.from() == End::Finish
    }

    /// The number of a bend, from 1.
    pub(crate) fn number(&self, index: usize) -> usize {
        index + 1
    }

    /// A bend by its number.
    pub(crate) fn bend(&self, index: usize) -> Name {
        Name::of("bend ", self.number(index))
    }

    /// A bend at the beginning of a sentence.
    pub(crate) fn capital_bend(&self, index: usize) -> Name {
        Name::of("Bend ", self.number(index))
    }

    /// Where the straight lies on which the clamp of a bend closes: `before bend 3`, or `between bends 3
    /// and 4` where the drawing is bent from its finish.
    pub(crate) fn ahead(&self, index: usize) -> Name {
        match (self.from(), self.bend_before(index)) {
            (End::Start, _) => Name::of("before bend ", self.number(index)),
            (End::Finish, Some(before)) => Name::between("between bends ", self.number(index), self.number(before)),
            (End::Finish, None) => Name::of("after bend ", self.number(index)),
        }
    }

    /// The same in a sentence that has named the bend already: `the straight before it`.
    pub(crate) fn straight_ahead(&self, index: usize) -> Name {
        match (self.from(), self.bend_before(index)) {
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
        match (self.from(), self.bend_before(index)) {
            (End::Start, _) => Name::of("beyond bend ", self.number(index)),
            (End::Finish, Some(before)) => Name::of("beyond bend ", self.number(before)),
            (End::Finish, None) => Name::words("at the finish"),
        }
    }

    /// A straight.
    pub(crate) fn straight(&self, index: usize) -> Name {
        let bends = self.solved.bends.len();
        match self.from() {
            _ if bends > 0 && index >= bends => Name::of("the tail after bend ", bends),
            End::Finish if index > 0 => Name::between("the straight between bends ", index, index + 1),
            _ => Name::of("the straight before bend ", index + 1),
        }
    }

    /// The bend or straight in which a length along the tube lies, given as the last of the bends made that can be
    /// meant: arcs before straights, so that a tangent point belongs to its bend.
    pub(crate) fn element_at(&self, at_mm: f64, last_made: usize) -> Name {
        let mut next = Some(last_made);
        while let Some(index) = next {
            let arc = &self.solved.bends[index];
            let [before_mm, behind_mm] = self.from().first_before([arc.starts_at_mm - at_mm, at_mm - arc.ends_at_mm()]);
            if arc.is_bent() && behind_mm > SAME_MM {
                // It lies on the straight that comes to the machine after this arc.
                let [after, _] = self.from().first_before([index + 1, index]);
                return self.straight(after);
            }
            if arc.is_bent() && before_mm <= SAME_MM {
                return self.bend(index);
            }
            next = self.bend_before(index);
        }
        Name::words(self.leg(self.from()))
    }

    /// An end of the drawing, with what it is at the machine where that is the other one.
    pub(crate) fn end(&self, end: End) -> &'static str {
        match (self.from(), end) {
            (End::Start, End::Start) => "lead end",
            (End::Start, End::Finish) => "tail",
            (End::Finish, End::Finish) => "lead end (the finish)",
            (End::Finish, End::Start) => "tail (the start)",
        }
    }

    /// The leg at an end of the drawing.
    pub(crate) fn leg(&self, end: End) -> &'static str {
        match (self.from(), end) {
            (End::Start, End::Start) => "the lead leg",
            (End::Start, End::Finish) => "the tail",
            (End::Finish, End::Finish) => "the leg at the finish",
            (End::Finish, End::Start) => "the leg at the start",
        }
    }

    /// What a longer leg at an end of the drawing does.
    pub(crate) fn moves_out(&self, end: End) -> &'static str {
        match (self.from(), end) {
            (End::Start, End::Start) => "The lead end moves out.",
            (End::Start, End::Finish) => "The tail end moves out.",
            (End::Finish, End::Finish) => "The finish moves out.",
            (End::Finish, End::Start) => "The start moves out.",
        }
    }
}
