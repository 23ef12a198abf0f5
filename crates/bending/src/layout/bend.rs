//! One bend of a part that is laid out.

use super::clamp::ClampOnTube;
use super::formed::Formed;
use crate::End;
use crate::model::nearly::NO_BEND_RAD;

/// One bend, solved.
#[derive(Clone, Debug, PartialEq)]
pub struct SolvedBend {
    /// The vertex it sits at, where the path is held in vertex form.
    pub vertex: Option<usize>,
    /// Rotation before it, radians.
    pub rotation_rad: f64,
    /// Bend angle, radians.
    pub angle_rad: f64,
    /// Centreline radius, mm.
    pub clr_mm: f64,
    /// Tangent length R tan(θ/2), mm (G06). `None` from half a turn on, where the straights do not meet.
    pub tangent_mm: Option<f64>,
    /// Length of the arc, mm.
    pub arc_mm: f64,
    /// Length along the tube at which it starts, mm from the tip as drawn.
    pub starts_at_mm: f64,
    /// The straight on which its clamp lies, mm: from the arc that is made before it, or from the tip. Rows of
    /// no angle count as straight.
    pub straight_ahead_mm: f64,
    /// The die set that bends it, as an index into the shop's; `None` where the shop has none and where
    /// the row turns nothing.
    pub die: Option<usize>,
    /// Its clamp; `None` where there is no die set.
    pub clamp: Option<ClampOnTube>,
    /// What bending does to the tube here; `None` where the row turns nothing and where the inside of the
    /// bend would fold.
    pub formed: Option<Formed>,
}

impl SolvedBend {
    /// Length along the tube at which it ends, mm.
    pub fn ends_at_mm(&self) -> f64 {
        self.starts_at_mm + self.arc_mm
    }

    /// Length along the tube up to which its clamp lies, where the tube is bent from an end, mm.
    pub(crate) fn made_from_mm(&self, from: End) -> f64 {
        match from {
            End::Start => self.starts_at_mm,
            End::Finish => self.ends_at_mm(),
        }
    }

    /// Whether it turns the tube at all: a row of 0° is part of the straight.
    pub fn is_bent(&self) -> bool {
        self.angle_rad >= NO_BEND_RAD
    }
}
