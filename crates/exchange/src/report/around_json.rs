//! The clearances of a tube as JSON.

use elbowroom_bending::around::{Clearance, Gap, NeighbourKind};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{Part, Solved};
use serde::Serialize;

/// How near a tube comes to something, as scripts read it.
#[derive(Serialize)]
pub(super) struct ClearanceFields<'a> {
    tube: &'a str,
    to: &'a str,
    kind: &'static str,
    /// `null` only where nothing was measured.
    least_mm: Option<f64>,
    wanted_mm: f64,
    wanted_basis: Option<&'static str>,
    must_mm: Option<f64>,
    at_mm: Option<f64>,
    on_tube: Option<[f64; 3]>,
    on_other: Option<[f64; 3]>,
    /// Why nothing was measured, or what is doubtful.
    doubt: Option<&'a str>,
}

/// Every clearance of a tube that was solved.
pub(super) fn clearances<'a>(part: &'a Part, solved: &'a Solved) -> impl Iterator<Item = ClearanceFields<'a>> {
    solved.clearances.iter().map(|clearance| ClearanceFields::of(&part.name, clearance))
}

impl<'a> ClearanceFields<'a> {
    fn of(tube: &'a str, clearance: &'a Clearance) -> Self {
        let gap = clearance.measured.as_ref();
        let of_gap = |place: fn(&Gap) -> [f64; 3]| gap.ok().map(place);
        let Clearance { wanted, .. } = clearance;
        Self {
            tube,
            to: &clearance.to,
            kind: clearance.kind.word(),
            least_mm: gap.ok().map(|gap| gap.least_mm),
            wanted_mm: wanted.clearance_mm,
            wanted_basis: wanted.basis.map(Ground::word),
            must_mm: wanted.must.map(|(clearance_mm, _)| clearance_mm),
            at_mm: gap.ok().map(|gap| gap.at_mm),
            on_tube: of_gap(|gap| gap.on_tube.into()),
            on_other: of_gap(|gap| gap.on_other.into()),
            doubt: gap.err().or(clearance.doubt.as_ref()).map(|words| &**words),
        }
    }

    /// Whether both are about the same two tubes.
    pub fn is_the_same_pair_as(&self, other: &Self) -> bool {
        let of_tubes = NeighbourKind::Tube.word();
        (self.kind, other.kind) == (of_tubes, of_tubes) && (self.tube, self.to) == (other.to, other.tube)
    }
}
