//! The rotations of a program as a dial shows them on which they add up.

use elbowroom_geometry::Angle;

use super::program::Program;

impl Program {
    /// What the dial of the chuck reads at each step, from 0° to less than 360°: nought where the tube is loaded, and every
    /// rotation added to those before it. For a machine that is set by [readings](crate::RotationSetting::Reading);
    /// derived here.
    pub fn dial_readings(&self) -> Vec<Angle> {
        let turns = self.steps.iter().map(|step| step.rotation);
        let readings = turns.scan(Angle::ZERO, |reading, turn| {
            *reading += turn;
            Some(*reading)
        });
        readings.map(on_dial).collect()
    }
}

/// An angle as a dial shows it. What rounds to a whole turn reads nought.
fn on_dial(angle: Angle) -> Angle {
    /// A dial is read to a tenth of a degree; far less than that short of a whole turn is that turn.
    const ROUNDING_DEGREES: f64 = 1e-9;
    let degrees = angle.degrees().rem_euclid(360.0);
    if degrees > 360.0 - ROUNDING_DEGREES { Angle::ZERO } else { Angle::from_degrees(degrees) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_dial_shows_no_whole_turn_and_nothing_below_nought() {
        // By hand.
        for (turned, reads) in [(0.0, 0.0), (90.0, 90.0), (-90.0, 270.0), (360.0, 0.0), (-1e-12, 0.0), (725.5, 5.5)] {
            let read = on_dial(Angle::from_degrees(turned)).degrees();
            assert!((read - reads).abs() < 1e-9 && read < 360.0, "{turned}: {read}");
        }
    }
}
