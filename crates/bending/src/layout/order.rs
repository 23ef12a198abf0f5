//! The rows of a drawing as they come to the machine, whichever end is bent first.

use elbowroom_geometry::{BendRow, Length};

use crate::End;

/// Rows as they are drawn, and the end from which they are bent.
#[derive(Clone, Copy, Debug)]
pub(crate) struct InOrder<'a> {
    /// The rows, from the start of the drawing on.
    pub rows: &'a [BendRow],
    /// The straight behind the last of them.
    pub tail: Length,
    /// The end that is bent first.
    pub from: End,
}

impl InOrder<'_> {
    /// The row that comes to the machine just before this one.
    pub fn before(&self, index: usize) -> Option<usize> {
        match self.from {
            End::Start => index.checked_sub(1),
            End::Finish => (index + 1 < self.rows.len()).then_some(index + 1),
        }
    }

    /// The straight between a row and the one before it, or the end that is bent first, mm.
    pub fn straight_ahead_mm(&self, index: usize) -> f64 {
        match self.from {
            End::Start => self.rows[index].straight.mm(),
            End::Finish => self.rows.get(index + 1).map_or(self.tail, |next| next.straight).mm(),
        }
    }

    /// The rotation between a row and the one before it, radians. It has one sign from either end (G05).
    pub fn rotation_ahead_rad(&self, index: usize) -> f64 {
        match self.from {
            End::Start => self.rows[index].rotation.radians(),
            End::Finish => self.rows.get(index + 1).map_or(0.0, |next| next.rotation.radians()),
        }
    }
}
