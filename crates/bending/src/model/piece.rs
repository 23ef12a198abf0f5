//! A piece that was bent and measured, with what the machine was set to.

use elbowroom_geometry::{Angle, LARGEST_MM, Length, Refusal};

use super::end::End;
use super::guarded::{LARGEST_TOOLING, positive};
use super::measurement::Measurement;
use super::shop::Hand;
use super::tube::Tube;

/// What one step was set to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Carriage feed before the bend; that of the first step includes the lead trim.
    pub feed: Length,
    /// Rotation before the bend.
    pub rotation: Angle,
    /// Angle set.
    pub set_angle: Angle,
    /// Radius of the die.
    pub die_clr: Length,
}

/// A piece that was bent and measured. It stays true when the drawing changes: what the machine strayed is
/// measured against these settings and not against the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The end of the drawing that was bent first.
    pub from: End,
    /// The side to which the machine bent.
    pub hand: Hand,
    /// The tube that was bent.
    pub tube: Tube,
    /// The blank that was cut.
    pub blank: Length,
    /// Cut off the lead end before it was measured.
    pub lead_trim: Length,
    /// Cut off the tail before it was measured.
    pub tail_trim: Length,
    /// The steps in the order of bending.
    pub steps: Vec<Setting>,
    /// The number of the piece after which the program was corrected, counted from 1; 0 where it was bent by
    /// the plan.
    pub corrected_after: usize,
    /// What was measured, from the lead end of the drawing to its tail.
    pub measurement: Measurement,
    /// Whether the person has measured again and stands by it: doubts are told and overruled.
    pub as_measured: bool,
}

impl Piece {
    /// The same piece where the drawing was turned round: the other end now leads, and what was measured runs
    /// the other way.
    #[must_use]
    pub fn turned_round(&self) -> Self {
        Self { from: self.from.other(), measurement: self.measurement.turned_round(), ..self.clone() }
    }

    /// Turns away numbers that no piece can have. `number` is its place among the pieces, counted from 1.
    ///
    /// # Errors
    /// Says which number it is and what it may be.
    pub fn check(&self, number: usize) -> Result<(), Refusal> {
        let length = |what: &str, length: Length| {
            if length.is_finite() && length.mm().abs() <= LARGEST_MM {
                return Ok(());
            }
            Err(Refusal::new(format!("{what} of piece {number}"), length, "a length in mm"))
        };
        let angle = |what: &str, angle: Angle| {
            if angle.is_finite() {
                return Ok(());
            }
            let was = angle.degrees().to_string();
            Err(Refusal::new(format!("{what} of piece {number}"), was, "a number of degrees"))
        };
        length("the blank", self.blank)?;
        length("the lead trim", self.lead_trim)?;
        length("the tail trim", self.tail_trim)?;
        for (index, step) in self.steps.iter().enumerate() {
            let at = |what: &str| format!("the {what} of step {}", index + 1);
            length(&at("feed"), step.feed)?;
            let radius = || format!("{} of piece {number}", at("die's radius"));
            positive(radius, step.die_clr, LARGEST_TOOLING)?;
            angle(&at("rotation"), step.rotation)?;
            angle(&at("set angle"), step.set_angle)?;
        }
        match &self.measurement {
            Measurement::Points(points) => {
                for (index, value) in points.iter().enumerate().flat_map(|(at, p)| p.iter().map(move |v| (at, *v))) {
                    length(&format!("measured point {}", index + 1), Length::from_mm(value))?;
                }
            }
            Measurement::Rows(rows, tail) => {
                for (index, row) in rows.iter().enumerate() {
                    let at = |what: &str| format!("the measured {what} of bend {}", index + 1);
                    length(&at("straight"), row.straight)?;
                    angle(&at("rotation"), row.rotation)?;
                    angle(&at("angle"), row.angle)?;
                }
                length("the measured tail", *tail)?;
            }
        }
        Ok(())
    }
}
