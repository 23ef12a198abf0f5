//! Extra blank at the ends, cut off after bending, with springback counted.

use elbowroom_geometry::Length;

use super::bend::SolvedBend;
use super::clamp::LEAST_TRIM_MM;
use super::formed::Released;
use super::tooling::{clamp_length, die_index};
use crate::model::ground::Ground;
use crate::{Part, Shop};

/// What an end asks for, mm; negative where it has more than it needs. Springback, which takes some of the leg, is counted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct EndNeeds {
    /// What clamp or chuck asks for.
    pub hold_mm: f64,
    /// What a square end face asks for.
    pub square_mm: f64,
    /// What springback takes of the leg.
    pub takes_mm: f64,
    /// What that rests on, where it is known.
    pub springback: Option<Ground>,
}

impl EndNeeds {
    /// Extra blank that is asked for.
    fn asked_mm(&self) -> f64 {
        let asked_mm = self.hold_mm.max(self.square_mm);
        if asked_mm < LEAST_TRIM_MM { 0.0 } else { asked_mm }
    }
}

/// Extra blank as it is cut, mm: in whole tenths, upwards, so that finding, cure, sheet and blank say one figure. Nobody saws
/// finer; common practice, no source.
fn sawn_mm(asked_mm: f64) -> f64 {
    /// A millionth of a millimetre is rounding, not need.
    const ROUNDING_MM: f64 = 1e-6;
    if asked_mm <= 0.0 { asked_mm } else { ((asked_mm - ROUNDING_MM) * 10.0).ceil() / 10.0 }
}

/// What the trims follow from.
pub(crate) struct Ends<'a> {
    /// The part.
    pub part: &'a Part,
    /// The shop.
    pub shop: &'a Shop,
    /// Its bends, laid out and formed.
    pub bends: &'a [SolvedBend],
    /// Its length, mm.
    pub developed_length_mm: f64,
}

impl Ends<'_> {
    /// What the start and the finish of the drawing ask for; `None` where nothing is bent.
    pub fn needs(&self) -> Option<[EndNeeds; 2]> {
        let (part, shop, from) = (self.part, self.shop, self.part.tooling.from);
        let first = self.bends.iter().find(|bend| bend.is_bent())?;
        let last = self.bends.iter().rfind(|bend| bend.is_bent())?;
        let legs_mm = [first.starts_at_mm, self.developed_length_mm - last.ends_at_mm()];
        let released: [Option<Released>; 2] =
            [first, last].map(|bend| bend.formed.as_ref().and_then(|formed| formed.released));
        let [made_first, _] = from.first_before([first, last]);
        let square_mm = shop.machine.square_end_diameters * part.tube.od.mm();
        let die = die_index(part, shop, Length::from_mm(made_first.clr_mm)).and_then(|die| shop.die_sets.get(die));
        let clamp_mm = die.and_then(|die| clamp_length(part, die)).map_or(0.0, Length::mm);
        let holds_mm = from.first_before([clamp_mm, shop.machine.tail_hold.mm()]);
        Some(std::array::from_fn(|end| {
            let takes_mm = released[end].map_or(0.0, |released| released.takes_mm);
            let left_mm = legs_mm[end] - takes_mm;
            EndNeeds {
                hold_mm: sawn_mm(holds_mm[end] - left_mm),
                square_mm: sawn_mm(square_mm - left_mm),
                takes_mm,
                springback: released[end].map(|released| released.basis.into()),
            }
        }))
    }

    /// The trims at the start and at the finish of the drawing, mm, and what they rest on: what is asked for, or what was
    /// put on by hand where that is more. `None` where a trim follows from the drawing, a clamp that is there and stock
    /// that was put on by hand.
    pub fn trims(&self) -> ([f64; 2], [Option<Ground>; 2]) {
        let Some(needs) = self.needs() else { return ([0.0; 2], [None; 2]) };
        let stocks_mm = [self.part.stock.lead.mm(), self.part.stock.tail.mm()];
        let clamped = self.part.tooling.from.first_before([true, false]);
        let trims_mm = std::array::from_fn(|end| stocks_mm[end].max(needs[end].asked_mm()));
        let basis = |end: usize| {
            let need: &EndNeeds = &needs[end];
            if need.asked_mm() <= stocks_mm[end].max(0.0) {
                return None;
            }
            // A trim that springback makes longer is no surer than the springback.
            let springback = need.springback.filter(|_| need.takes_mm != 0.0);
            let of_machine = !clamped[end] || need.square_mm > need.hold_mm;
            let machine = of_machine.then(|| Ground::from(self.shop.machine.basis));
            springback.filter(|ground| ground.unsure()).or(machine).or(springback)
        };
        (trims_mm, [basis(0), basis(1)])
    }
}
