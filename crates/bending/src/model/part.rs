//! The part as a person lays it out: tube, tooling, path.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, LARGEST_MM, LARGEST_ROTATION, Length, Refusal};

use super::end::End;
use super::guarded::{Guard, Guarded, LARGEST_TOOLING, degrees, not_negative, positive};
use super::keep::Keep;
use super::nodes::Nodes;
use super::path::Path;
use super::piece::Piece;
use super::shop::{Hand, Shop};
use super::tolerance::ToleranceChoice;
use super::tube::Tube;

/// How a person has chosen to bend the part; what is left open the shop decides.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ToolingChoice {
    /// The die set by name, for every bend of the part. Left open, each bend takes the die set in the
    /// shop that fits its outside diameter and radius.
    pub die: Option<String>,
    /// The clamp by its length. Left open, the longest one of the die set.
    pub clamp: Option<ClampLength>,
    /// Where the weld seam is put at the first bend, as a clock position from the outside of that bend,
    /// positive clockwise looking along the drawing from finish to start. Left open, where it is stretched least.
    pub seam_start: Option<SeamStart>,
    /// The end of the drawing that is bent first.
    pub from: End,
    /// The side to which the machine bends. Left open, that to which the shop's does.
    pub hand: Option<Hand>,
    /// Whether the program stays as planned, whatever measured pieces ask for.
    pub as_planned: bool,
    /// How far finished pieces may stray. What is left open is usual.
    pub tolerance: ToleranceChoice,
}

/// The length of a clamp: of one that there can be, owned or not.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct ClampLength(Length);

impl ClampLength {
    /// Takes a length.
    ///
    /// # Errors
    /// Refuses a length that no clamp has.
    pub fn new(length: Length) -> Result<Self, Refusal> {
        positive(|| "the length of the clamp".into(), length, LARGEST_TOOLING).map(|()| Self(length))
    }

    /// The length itself.
    pub const fn length(self) -> Length {
        self.0
    }

    /// The length, mm.
    pub const fn mm(self) -> f64 {
        self.0.mm()
    }
}

/// Where the weld seam is pinned at the first bend, in (-180°, 180°].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamStart(Angle);

impl SeamStart {
    /// Takes a clock position, brought into (-180°, 180°].
    ///
    /// # Errors
    /// Refuses what is no angle, or many turns.
    pub fn new(start: Angle) -> Result<Self, Refusal> {
        if start.abs() <= LARGEST_ROTATION {
            return Ok(Self::at(start));
        }
        Err(Refusal::new("the seam's clock position", degrees(start), "from -3600° to 3600°"))
    }

    /// The clock position of an angle that was worked out.
    pub(super) fn at(start: Angle) -> Self {
        Self(start.within_half_turn().storable())
    }

    /// The clock position itself.
    pub const fn clock(self) -> Angle {
        self.0
    }
}

/// Extra blank that a person has put on at the ends to be cut off after bending, behind its guard.
pub type ExtraStock = Guarded<StockFigures>;

/// Extra blank at the ends.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StockFigures {
    /// Before the lead end.
    pub lead: Length,
    /// Behind the tail.
    pub tail: Length,
}

impl Guard for StockFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        let most = Length::from_mm(LARGEST_MM);
        not_negative(|| "the extra stock at the start".into(), self.lead, most)?;
        not_negative(|| "the extra stock at the finish".into(), self.tail, most)
    }
}

impl ExtraStock {
    /// The same where the drawing was turned round.
    #[must_use]
    pub(super) fn turned_round(&self) -> Self {
        Self::known(StockFigures { lead: self.tail, tail: self.lead })
    }
}

impl Default for ExtraStock {
    /// None at all.
    fn default() -> Self {
        Self::known(StockFigures { lead: Length::ZERO, tail: Length::ZERO })
    }
}

/// A part: what is drawn, of which tube, on which tooling.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What the part is called.
    pub name: String,
    /// A note for whoever opens it.
    pub note: String,
    /// The tube.
    pub tube: Tube,
    /// The chosen tooling.
    pub tooling: ToolingChoice,
    /// The centreline.
    pub path: Path,
    /// Extra stock put on by hand.
    pub stock: ExtraStock,
    /// The unit in which lengths are shown and typed.
    pub units: LengthUnit,
    /// Pieces that were bent and measured, in the order in which they were bent.
    pub pieces: Vec<Piece>,
    /// Which place of the path is which, kept by every edit.
    pub nodes: Nodes,
    /// What edits leave where it is.
    pub keep: Keep,
}

impl ToolingChoice {
    /// The side to which the machine bends: the chosen one, else that of the shop's machine.
    pub fn hand_in(&self, shop: &Shop) -> Hand {
        self.hand.unwrap_or(shop.machine.hand)
    }
}
