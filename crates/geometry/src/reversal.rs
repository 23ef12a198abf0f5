//! The same tube from its other end.

use crate::{Angle, BendPath, BendRow, Centreline, Frame};

impl BendPath {
    /// The same tube in space, from the other end. Rotations keep their value and sign (G05), and move to
    /// the bend that now comes second.
    pub fn reversed(&self) -> Self {
        let rows = self.rows();
        let end = Centreline::of(self).end();
        // The last bend's centre lies to the same side, whichever way one travels.
        let start = Frame { tangent: -end.tangent, ..end };
        let turned = |index: usize| {
            let next = rows.get(index + 1);
            BendRow {
                straight: next.map_or(self.tail(), |next| next.straight),
                rotation: next.map_or(Angle::ZERO, |next| next.rotation),
                ..rows[index]
            }
        };
        let tail = rows.first().map_or(self.tail(), |row| row.straight);
        Self::trusted(start, (0..rows.len()).rev().map(turned).collect(), tail)
    }
}
