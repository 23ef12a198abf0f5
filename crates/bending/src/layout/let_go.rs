//! One bend when it is let go: once for what is shown of it and for the program.

use elbowroom_geometry::{Angle, Length};

use crate::forming::growth::Growth;
use crate::forming::springback::SpringbackLine;

/// A bend when it is let go: from its drawn radius to the one that is left on a die.
pub(super) fn let_go(line: &SpringbackLine, die: Length, drawn: Length, angle: Angle) -> Growth {
    Growth { drawn, free: line.free_radius(die, angle), angle }
}

/// Blank that a bend takes up.
pub(super) fn take_up(die: Length, set: Angle, stretch: f64) -> Length {
    die * (set.radians() * (1.0 - stretch))
}
