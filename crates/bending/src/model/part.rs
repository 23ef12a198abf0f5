//! The part as a person lays it out: tube, tooling, path.

use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, Length};

use super::end::End;
use super::nodes::Nodes;
use super::path::Path;
use super::piece::Piece;
use super::shop::{Hand, Shop};
use super::tube::Tube;

/// How a person has chosen to bend the part; what is left open the shop decides.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ToolingChoice {
    /// The die set by name, for every bend of the part. Left open, each bend takes the die set in the
    /// shop that fits its outside diameter and radius.
    pub die: Option<String>,
    /// The clamp by its length. Left open, the longest one of the die set.
    pub clamp: Option<Length>,
    /// Where the weld seam is put at the first bend, as a clock position from the outside of that bend,
    /// positive clockwise seen from the chuck looking to the die. Left open, where it is stretched least.
    pub seam_start: Option<Angle>,
    /// The end of the drawing that is bent first.
    pub from: End,
    /// The side to which the machine bends. Left open, that to which the shop's does.
    pub hand: Option<Hand>,
    /// Whether the program stays as planned, whatever measured pieces ask for.
    pub as_planned: bool,
}

/// Extra blank that a person has put on at the ends, to be cut off after bending.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ExtraStock {
    /// Before the lead end.
    pub lead: Length,
    /// Behind the tail.
    pub tail: Length,
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
}

impl ToolingChoice {
    /// The side to which the machine bends: the chosen one, else that of the shop's machine.
    pub fn hand_in(&self, shop: &Shop) -> Hand {
        self.hand.unwrap_or(shop.machine.hand)
    }

    /// Goes on as a piece was bent: from its end and to its side.
    pub fn go_on_as(&mut self, piece: &Piece) {
        (self.from, self.hand) = (piece.from, Some(piece.hand));
    }
}
