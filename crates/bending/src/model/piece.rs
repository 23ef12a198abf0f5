//! A piece that was bent and measured, with what the machine was set to.

use elbowroom_geometry::{Angle, LARGEST_MM, Length, MOST_BENDS, Refusal};

use super::end::End;
use super::guarded::{Guard, Guarded, LARGEST_TOOLING, degrees, not_negative, positive};
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

/// A piece that was bent and measured, behind its guard. It stays true when the drawing changes: what the machine strayed is
/// measured against these settings and not against the drawing.
pub type Piece = Guarded<PieceFigures>;

/// What is to be known of a piece that was bent and measured.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceFigures {
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

/// More than any machine is ever set to turn, or a piece is measured to be turned: ten times round. Derived here, so that a
/// slip of the pen is seen.
const LARGEST_TURN: Angle = Angle::from_degrees(3600.0);

/// The most points that are measured on a piece: both ends and two for each bend.
const MOST_POINTS: usize = 2 * MOST_BENDS + 2;

impl Guard for PieceFigures {
    /// Takes angles to the nearest ones that a file holds. Refuses numbers that no piece can have, such as a blank below 0.
    fn guard(&mut self) -> Result<(), Refusal> {
        let largest = Length::from_mm(LARGEST_MM);
        let length = |what: &str, length: Length| {
            if length >= -largest && length <= largest {
                return Ok(());
            }
            Err(Refusal::new(what, length, "a length in mm"))
        };
        let angle = |what: &str, angle: &mut Angle| {
            if angle.is_finite() && angle.abs() <= LARGEST_TURN {
                *angle = angle.storable();
                return Ok(());
            }
            Err(Refusal::new(what, degrees(*angle), "a number of degrees"))
        };
        let count = |what: &str, count: usize, most: usize| {
            if count <= most {
                return Ok(());
            }
            Err(Refusal::new(format!("the number of {what}"), count.to_string(), format!("{most} or fewer")))
        };
        for (what, length) in [
            ("the blank", self.blank),
            ("the trim at the end bent first", self.lead_trim),
            ("the trim at the end bent last", self.tail_trim),
        ] {
            not_negative(|| what.into(), length, largest)?;
        }
        count("steps", self.steps.len(), MOST_BENDS)?;
        for (index, step) in self.steps.iter_mut().enumerate() {
            let at = |what: &str| format!("the {what} of step {}", index + 1);
            length(&at("feed"), step.feed)?;
            positive(|| at("die's radius"), step.die_clr, LARGEST_TOOLING)?;
            angle(&at("rotation"), &mut step.rotation)?;
            angle(&at("set angle"), &mut step.set_angle)?;
        }
        match &mut self.measurement {
            Measurement::Points(points) => {
                count("measured points", points.len(), MOST_POINTS)?;
                for (index, value) in points.iter().enumerate().flat_map(|(at, p)| p.iter().map(move |v| (at, *v))) {
                    length(&format!("measured point {}", index + 1), Length::from_mm(value))?;
                }
            }
            Measurement::Rows(rows, tail) => {
                count("measured bends", rows.len(), MOST_BENDS)?;
                for (index, row) in rows.iter_mut().enumerate() {
                    let at = |what: &str| format!("the measured {what} of bend {}", index + 1);
                    length(&at("straight"), row.straight)?;
                    angle(&at("rotation"), &mut row.rotation)?;
                    angle(&at("angle"), &mut row.angle)?;
                }
                length("the measured last straight", *tail)?;
            }
        }
        Ok(())
    }
}

impl Piece {
    /// The same piece where the drawing was turned round: the other end now leads, and what was measured runs
    /// the other way.
    #[must_use]
    pub fn turned_round(&self) -> Self {
        let (from, measurement) = (self.from.other(), self.measurement.turned_round());
        Self::known(PieceFigures { from, measurement, ..self.clone().into_figures() })
    }

    /// The same piece, by whose measurement the person stands, or no longer does.
    #[must_use]
    pub fn stood_by(self, as_measured: bool) -> Self {
        Self::known(PieceFigures { as_measured, ..self.into_figures() })
    }

    /// The same piece measured again; nobody has stood by that yet.
    ///
    /// # Errors
    /// Refuses a measurement that no piece can have.
    pub fn measured_again(&self, measurement: Measurement) -> Result<Self, Refusal> {
        self.with(|piece| (piece.measurement, piece.as_measured) = (measurement, false))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_geometry::Point3;

    use super::*;
    use crate::measurement::MeasuredRow;

    fn piece() -> PieceFigures {
        let mm = Length::from_mm;
        let step =
            Setting { feed: mm(300.0), rotation: Angle::ZERO, set_angle: Angle::from_degrees(91.0), die_clr: mm(76.2) };
        PieceFigures {
            from: End::Start,
            hand: Hand::Right,
            tube: Tube::default(),
            blank: mm(700.0),
            lead_trim: Length::ZERO,
            tail_trim: mm(20.0),
            steps: vec![step],
            corrected_after: 0,
            measurement: Measurement::Points(vec![Point3::origin(), Point3::new(1.0, 2.0, 3.0)]),
            as_measured: false,
        }
    }

    #[test]
    fn numbers_that_no_piece_can_have_are_turned_away_by_name() {
        piece().sound().unwrap();
        let row = MeasuredRow { straight: Length::ZERO, rotation: Angle::ZERO, angle: Angle::from_degrees(f64::NAN) };
        type Spoils = Box<dyn Fn(&mut PieceFigures)>;
        let cases: Vec<(&str, Spoils)> = vec![
            ("the blank", Box::new(|piece| piece.blank = Length::from_mm(f64::NAN))),
            ("the blank", Box::new(|piece| piece.blank = Length::from_mm(-1.0))),
            ("the blank", Box::new(|piece| piece.blank = Length::from_mm(LARGEST_MM * 1.01))),
            ("the trim at the end bent first", Box::new(|piece| piece.lead_trim = Length::from_mm(-0.1))),
            ("the trim at the end bent last", Box::new(|piece| piece.tail_trim = Length::from_mm(f64::INFINITY))),
            ("the feed of step 1", Box::new(|piece| piece.steps[0].feed = Length::from_mm(-LARGEST_MM * 1.01))),
            ("the die's radius of step 1", Box::new(|piece| piece.steps[0].die_clr = Length::ZERO)),
            ("the rotation of step 1", Box::new(|piece| piece.steps[0].rotation = Angle::from_degrees(-3601.0))),
            ("the set angle of step 1", Box::new(|piece| piece.steps[0].set_angle = Angle::from_degrees(f64::NAN))),
            (
                "measured point 2",
                Box::new(|piece| {
                    piece.measurement = Measurement::Points(vec![Point3::origin(), Point3::new(0.0, f64::NAN, 0.0)]);
                }),
            ),
            (
                "the number of measured points",
                Box::new(|piece| {
                    piece.measurement = Measurement::Points(vec![Point3::origin(); MOST_POINTS + 1]);
                }),
            ),
            (
                "the measured angle of bend 1",
                Box::new(move |piece| {
                    piece.measurement = Measurement::Rows(vec![row], Length::ZERO);
                }),
            ),
            (
                "the measured last straight",
                Box::new(|piece| {
                    piece.measurement = Measurement::Rows(Vec::new(), Length::from_mm(f64::NEG_INFINITY));
                }),
            ),
        ];
        for (field, spoil) in cases {
            let mut figures = piece();
            spoil(&mut figures);
            assert_eq!(figures.sound().unwrap_err().field, field);
        }
    }

    #[test]
    fn angles_are_those_that_a_file_holds() {
        // What a file holds of an angle in degrees is read as another angle than the one that was written down.
        let odd = Angle::from_radians(1.234_567_890_123_456_7);
        let mut figures = piece();
        (figures.steps[0].set_angle, figures.steps[0].rotation) = (odd, -odd);
        let row = MeasuredRow { straight: Length::ZERO, rotation: odd, angle: odd };
        figures.measurement = Measurement::Rows(vec![row], Length::ZERO);
        let piece = figures.sound().unwrap();
        assert_eq!((piece.steps[0].set_angle, piece.steps[0].rotation), (odd.storable(), (-odd).storable()));
        let Measurement::Rows(rows, _) = &piece.measurement else { unreachable!() };
        assert_eq!((rows[0].rotation, rows[0].angle), (odd.storable(), odd.storable()));
    }

    #[test]
    fn another_measurement_is_doubted_anew_and_a_bad_one_changes_nothing() {
        let piece = piece().sound().unwrap().stood_by(true);
        assert!(piece.as_measured && !piece.clone().stood_by(false).as_measured);
        let again = piece.measured_again(Measurement::Points(vec![Point3::origin()])).unwrap();
        assert!(!again.as_measured && again.measurement == Measurement::Points(vec![Point3::origin()]));
        let bad = piece.measured_again(Measurement::Rows(Vec::new(), Length::from_mm(f64::NAN)));
        assert_eq!(bad.unwrap_err().field, "the measured last straight");
    }
}
