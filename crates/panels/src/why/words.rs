//! The clamp on the tube in plain words, for whoever learns the trade.

use elbowroom_bending::{Basis, ClampOnTube, DieSet, End, Part, Severity, Shop, Solved, SolvedBend};
use elbowroom_geometry::units::{format_angle, format_length};
use elbowroom_geometry::{Angle, Length};

use crate::widgets::UNSURE;

/// Lengths this near to nothing are not spoken of, mm: half of what is shown.
const SHOWN_MM: f64 = 0.05;

/// One bend, with all that a sentence may need.
struct Speech<'a> {
    part: &'a Part,
    solved: &'a Solved,
    bend: usize,
    made: &'a SolvedBend,
}

/// What there is to say about the clamp of a bend, short sentences in order.
pub fn sentences(part: &Part, shop: &Shop, solved: &Solved, bend: usize) -> Vec<String> {
    let Some(made) = solved.bends.get(bend) else { return Vec::new() };
    let speech = Speech { part, solved, bend, made };
    let die = made.die.and_then(|die| shop.die_sets.get(die));
    match (made.clamp, die) {
        (Some(clamp), Some(die)) => {
            let mut said = vec![speech.seat(&clamp)];
            said.extend(speech.bite(&clamp, die));
            said.extend(speech.cure(&clamp));
            said.push(speech.grip(&clamp, die));
            said
        }
        _ if !made.is_bent() => vec!["This row turns nothing, so nothing is clamped for it.".to_owned()],
        _ => {
            let (od, clr) = (speech.mm(part.tube.od.mm()), speech.mm(made.clr_mm));
            vec![format!("The shop has no die set for {od} tube at a CLR of {clr}, so there is no clamp to show.")]
        }
    }
}

impl Speech<'_> {
    fn mm(&self, mm: f64) -> String {
        format_length(Length::from_mm(mm), self.part.units, self.part.units.decimals())
    }

    /// A figure with its mark, where it rests on common practice.
    fn on(&self, figure: String, basis: Basis) -> String {
        if basis.unsure() { format!("{UNSURE}{figure}") } else { figure }
    }

    fn before(&self) -> Option<usize> {
        self.solved.bend_before(self.bend)
    }

    /// The leg that leads.
    fn leg(&self) -> &'static str {
        match self.solved.from {
            End::Start => "the leg at the start",
            End::Finish => "the leg at the finish",
        }
    }

    fn seat(&self, clamp: &ClampOnTube) -> String {
        let (this, length) = (self.bend + 1, self.mm(clamp.length_mm));
        let straight_mm = self.made.straight_ahead_mm;
        let straight = self.mm(straight_mm);
        match self.before() {
            None if straight_mm + SHOWN_MM >= clamp.length_mm => {
                let leg = self.leg();
                format!("The {length} clamp of bend {this} sits on {leg}, which is {straight} long.")
            }
            None => {
                let (missing, trim) =
                    (self.mm(clamp.length_mm - straight_mm), self.mm(self.solved.trims_in_order_mm()[0]));
                let leg = self.leg();
                let reaches = match self.solved.from {
                    End::Start => format!("The blank goes on for {trim} beyond the start"),
                    End::Finish => format!("The blank goes on for {trim} beyond the finish"),
                };
                format!(
                    "The {length} clamp of bend {this} is {missing} longer than {leg}. {reaches}, so that it has something \
                     to hold; that is cut off afterwards."
                )
            }
            Some(before) if clamp.overlap_mm > SHOWN_MM && straight_mm < 0.0 => {
                let [first, second] = self.solved.from.first_before([before + 1, this]);
                format!(
                    "Bend {second} starts before bend {first} has ended, so the {length} clamp of bend {this} sits on no \
                     straight at all."
                )
            }
            Some(before) if clamp.overlap_mm > SHOWN_MM => format!(
                "The {length} clamp closes on the stretch ahead of bend {this}. The straight there is only {straight}, \
                 so {} of the clamp lie over bend {}, which is bent already.",
                self.mm(clamp.overlap_mm),
                before + 1
            ),
            Some(_) => {
                let spare = self.mm((straight_mm - clamp.length_mm).max(0.0));
                format!(
                    "The straight ahead of bend {this} is {straight}: the {length} clamp fits on it, with {spare} to spare."
                )
            }
        }
    }

    fn bite(&self, clamp: &ClampOnTube, die: &DieSet) -> Option<String> {
        if clamp.overlap_mm <= SHOWN_MM {
            return None;
        }
        let limit = |length: Length| self.on(self.mm(length.mm()), die.basis);
        let (free, most) = (limit(die.mark_free_bite), limit(die.largest_bite));
        let basis = basis(die.basis);
        let bite = self.mm(clamp.bite_mm);
        let limits = format!("Up to {free} leaves no mark, beyond {most} the clamp does not close{basis}.");
        Some(format!(
            "The clamp's cavity is straight and the bend is not: the tube leaves its axis by {bite}, {}. This is the \
             bite. {limits}",
            direction(clamp.bite_direction_rad)
        ))
    }

    fn cure(&self, clamp: &ClampOnTube) -> Option<String> {
        if self.before().is_none() || clamp.overlap_mm <= SHOWN_MM {
            return None;
        }
        let straight_mm = self.made.straight_ahead_mm;
        // Upwards, as wherever a smallest straight is told: what is shown is enough.
        let limit = |mm: f64| self.on(self.mm(self.part.units.at_least_mm(mm)), clamp.straight_basis);
        let (needs, free) = (limit(clamp.needs_straight_mm), limit(clamp.mark_free_straight_mm));
        if straight_mm < clamp.needs_straight_mm {
            Some(format!(
                "After this very bend the clamp closes from a straight of {needs} on, and leaves no mark from {free} on."
            ))
        } else if straight_mm < clamp.mark_free_straight_mm {
            Some(format!("After this very bend a straight of {free} or more leaves no mark."))
        } else {
            Some("So little does no harm: the bend made before is shallow, or just begins to curve.".to_owned())
        }
    }

    fn grip(&self, clamp: &ClampOnTube, die: &DieSet) -> String {
        let gripped = self.mm(clamp.gripped_mm);
        let held = die.holds(Length::from_mm(clamp.gripped_mm));
        let (angle, held_text) = (
            format_angle(Angle::from_radians(self.made.angle_rad), 1),
            self.on(format_angle(held, 1), die.grip_basis()),
        );
        let proved = match die.grip_basis() {
            Basis::CommonPractice => "is counted on",
            Basis::Shop => "has proved",
        };
        // In the words of the finding, whose severity says how sure it is.
        let is_stop = |finding: &elbowroom_bending::Finding| {
            finding.is_of_grip() && finding.place.bend == Some(self.bend) && finding.severity == Severity::Stop
        };
        let slips = if self.solved.findings.iter().any(is_stop) { "slips" } else { "may slip" };
        let basis = basis(die.grip_basis());
        // Degrees typed and degrees computed differ in the last bits.
        if self.made.angle_rad <= held.radians() + 1e-9 {
            format!("It grips {gripped}, which {proved} to hold up to {held_text}{basis}; this bend is {angle}.")
        } else {
            format!(
                "It grips only {gripped}, which {proved} to hold no more than {held_text}{basis}; this bend is {angle}, and the tube {slips}."
            )
        }
    }
}

/// Where a figure comes from, where that matters.
fn basis(basis: Basis) -> &'static str {
    match basis {
        Basis::CommonPractice => " (common practice)",
        Basis::Shop => "",
    }
}

/// The direction of a bite in words.
fn direction(bite_direction_rad: f64) -> &'static str {
    let degrees = bite_direction_rad.to_degrees().abs();
    if degrees <= 45.0 {
        "towards the die"
    } else if degrees >= 135.0 {
        "into the clamp"
    } else {
        "along the line where the jaws part"
    }
}
