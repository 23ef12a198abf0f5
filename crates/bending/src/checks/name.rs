//! Names of bends, straights, ends and die sets as a sentence calls them: plain values, written when they are read.

use std::fmt;

use crate::End;

/// A bend, a straight or a place between two bends as it is called in a sentence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Name {
    words: &'static str,
    /// From 1; 0 where there is none.
    first: u32,
    and: u32,
}

/// A number for a sentence. No path has so many bends that one would not fit.
pub(crate) fn short(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

impl Name {
    pub(crate) const fn words(words: &'static str) -> Self {
        Self { words, first: 0, and: 0 }
    }

    pub(crate) const fn of(words: &'static str, number: u32) -> Self {
        Self { words, first: number, and: 0 }
    }

    pub(crate) const fn between(words: &'static str, first: u32, second: u32) -> Self {
        Self { words, first, and: second }
    }
}

impl fmt::Display for Name {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.words)?;
        if self.first > 0 {
            self.first.fmt(out)?;
        }
        if self.and > 0 {
            out.write_str(" and ")?;
            self.and.fmt(out)?;
        }
        Ok(())
    }
}

/// A die set by its place in the shop, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DieNumber(u32);

impl DieNumber {
    pub(crate) fn new(place: usize) -> Self {
        Self(short(place))
    }

    pub(crate) const fn place(self) -> usize {
        self.0 as usize
    }
}

/// The straight on which the clamp of a bend closes, from what lies at its ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ahead {
    /// The end of the drawing that is bent first.
    pub from: End,
    /// The bend, by its number.
    pub bend: u32,
    /// The bend that is made before it, by its number; 0 where it is the first.
    pub before: u32,
}

impl Ahead {
    /// Where it lies: `before bend 3`, or `between bends 3 and 4` where the drawing is bent from its finish.
    pub fn place(self) -> Name {
        match (self.from, self.before) {
            (End::Start, _) => Name::of("before bend ", self.bend),
            (End::Finish, 0) => Name::of("after bend ", self.bend),
            (End::Finish, before) => Name::between("between bends ", self.bend, before),
        }
    }

    /// The same in a sentence that has named the bend already: `the straight before it`.
    pub fn straight(self) -> Name {
        match (self.from, self.before) {
            (End::Start, _) => Name::words("the straight before it"),
            (End::Finish, 0) => Name::of("the straight after bend ", self.bend),
            (End::Finish, before) => Name::between("the straight between bends ", self.bend, before),
        }
    }

    /// The part of the tube that moves when it changes, as the drawing is held at its start: `beyond bend 3`.
    pub fn beyond(self) -> Name {
        match (self.from, self.before) {
            (End::Start, _) => Name::of("beyond bend ", self.bend),
            (End::Finish, 0) => Name::words("at the finish"),
            (End::Finish, before) => Name::of("beyond bend ", before),
        }
    }
}

/// An end of a drawing that is bent from its start or from its finish.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TubeEnd {
    /// The end of the drawing that is bent first.
    pub from: End,
    /// The end that is meant.
    pub end: End,
}

impl TubeEnd {
    /// Its name: that of the drawing, whichever end is bent first.
    pub const fn name(self) -> &'static str {
        match self.end {
            End::Start => "start",
            End::Finish => "finish",
        }
    }

    /// The leg at it.
    pub const fn leg(self) -> &'static str {
        match self.end {
            End::Start => "the leg at the start",
            End::Finish => "the leg at the finish",
        }
    }

    /// What a longer leg does.
    pub const fn moves_out(self) -> &'static str {
        match self.end {
            End::Start => "The start moves out.",
            End::Finish => "The finish moves out.",
        }
    }

    /// Where the trim cut lies, seen from the bend that is nearest.
    pub const fn side(self) -> &'static str {
        match self.end {
            End::Start => "before",
            End::Finish => "after",
        }
    }

    /// What a bend does that leaves no leg there.
    pub const fn passed(self) -> &'static str {
        match self.end {
            End::Start => "begins before the start",
            End::Finish => "runs past the finish",
        }
    }
}
