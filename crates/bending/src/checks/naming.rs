//! Bends, straights and ends as a person with the drawing in hand calls them.
//!
//! Where the drawing is bent from its finish, "before bend 3" would mean the other side of it than on the machine:
//! texts then say "between bends 2 and 3".

use super::name::{Ahead, Name, TubeEnd, short};
use super::subject::Subject;
use crate::End;
use crate::model::nearly::SAME_MM;

impl Subject<'_> {
    /// The end that is bent first.
    pub(crate) fn from(&self) -> End {
        self.solved.from
    }

    /// Whether the finish of the drawing is bent first.
    pub(crate) fn is_from_finish(&self) -> bool {
        self.from() == End::Finish
    }

    /// The number of a bend or vertex, from 1.
    pub(crate) fn number(&self, index: usize) -> u32 {
        short(index + 1)
    }

    /// A bend by its number.
    pub(crate) fn bend(&self, index: usize) -> Name {
        Name::of("bend ", self.number(index))
    }

    /// The straight on which the clamp of a bend closes.
    pub(crate) fn ahead(&self, index: usize) -> Ahead {
        let before = self.bend_before(index).map_or(0, |before| self.number(before));
        Ahead { from: self.from(), bend: self.number(index), before }
    }

    /// A straight.
    pub(crate) fn straight(&self, index: usize) -> Name {
        let bends = self.solved.bends.len();
        match self.from() {
            _ if bends > 0 && index >= bends => Name::of("the straight after bend ", short(bends)),
            End::Finish if index > 0 => Name::between("the straight between bends ", short(index), short(index + 1)),
            _ => Name::of("the straight before bend ", short(index + 1)),
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
        Name::words(self.end(self.from()).leg())
    }

    /// An end of the drawing.
    pub(crate) fn end(&self, end: End) -> TubeEnd {
        TubeEnd { from: self.from(), end }
    }
}
