//! What a machine strays from its settings, and the program with that taken out.

use elbowroom_geometry::{Angle, BendPath, Length};

use crate::program::{Forming, Program};

/// Errors of two pieces that differ by no more than this are one error, measured twice, where the set angles
/// of the pieces differ by no more either. Common practice of measuring bent tube by hand, no source.
pub const AGREEING: (Angle, Length) = (Angle::from_degrees(0.5), Length::from_mm(1.0));

/// What came off the machine less what its settings should have given, in the order of bending.
#[derive(Clone, Debug, PartialEq)]
pub struct Strayed {
    /// The set angles that it was bent by.
    pub set_angles: Vec<Angle>,
    /// Each straight but the tail.
    pub straights: Vec<Length>,
    /// Each rotation; the first is 0.
    pub rotations: Vec<Angle>,
    /// Each free angle.
    pub angles: Vec<Angle>,
    /// Blank that is left over at the tail beyond what these errors explain: bends took up less than planned.
    pub blank_left: Length,
}

/// Blank that a bend draws for each radian that is set.
fn drawn_per_radian(forming: &Forming) -> Length {
    forming.die_clr * (1.0 - forming.stretch)
}

/// The error of the set angle that explains the error of a free angle.
fn set_error(forming: &Forming, free_error: Angle) -> Angle {
    free_error / (1.0 - forming.line.b())
}

impl Strayed {
    /// What a piece strayed, both paths in the order of bending and with as many bends.
    pub fn of(set_angles: Vec<Angle>, expected: &BendPath, measured: &BendPath, forming: &[Forming]) -> Self {
        let pairs = || measured.rows().iter().zip(expected.rows());
        let straights: Vec<Length> = pairs().map(|(m, e)| m.straight - e.straight).collect();
        let angles: Vec<Angle> = pairs().map(|(m, e)| m.angle - e.angle).collect();
        let mut blank_left = measured.tail() - expected.tail();
        for ((straight, angle), forming) in straights.iter().zip(&angles).zip(forming) {
            blank_left += *straight + drawn_per_radian(forming) * set_error(forming, *angle).radians();
        }
        let rotations = pairs().map(|(m, e)| (m.rotation - e.rotation).within_half_turn()).collect();
        Self { set_angles, straights, rotations, angles, blank_left }
    }

    /// Whether two pieces were set alike.
    fn set_like(&self, other: &Self) -> bool {
        let pairs = self.set_angles.iter().zip(&other.set_angles);
        self.set_angles.len() == other.set_angles.len() && pairs.into_iter().all(|(a, b)| (*a - *b).abs() <= AGREEING.0)
    }

    /// The error to take out after several pieces, the last one last: figure by figure that of the last
    /// piece, averaged with those of earlier ones that were set like it and agree with it ([`AGREEING`]). The
    /// mean takes the noise of measuring down; what does not agree comes of a piece that was set otherwise or
    /// wrongly, or of a machine that was changed since. `None` of no piece.
    pub fn settled(pieces: &[&Self]) -> Option<Self> {
        let last = *pieces.last()?;
        let pieces: Vec<&Self> = pieces.iter().copied().filter(|piece| piece.set_like(last)).collect();
        let length = |of: &dyn Fn(&Self) -> Length| {
            let errors: Vec<f64> = pieces.iter().map(|piece| of(piece).mm()).collect();
            Length::from_mm(agreed(&errors, AGREEING.1.mm()))
        };
        let angle = |of: &dyn Fn(&Self) -> Angle| {
            // Laid around the last one's, so that errors on both sides of half a turn have a mean.
            let at = of(last);
            let errors: Vec<f64> = pieces.iter().map(|piece| (of(piece) - at).within_half_turn().radians()).collect();
            at + Angle::from_radians(agreed(&errors, AGREEING.0.radians()))
        };
        let steps = 0..last.angles.len();
        Some(Self {
            set_angles: last.set_angles.clone(),
            straights: steps.clone().map(|step| length(&|piece| piece.straights[step])).collect(),
            rotations: steps.clone().map(|step| angle(&|piece| piece.rotations[step])).collect(),
            angles: steps.map(|step| angle(&|piece| piece.angles[step])).collect(),
            blank_left: length(&|piece| piece.blank_left),
        })
    }
}

/// The mean of those errors that lie within `band` of the last one.
fn agreed(errors: &[f64], band: f64) -> f64 {
    let last = errors.last().copied().unwrap_or_default();
    let near = || errors.iter().filter(|error| (*error - last).abs() <= band);
    near().sum::<f64>() / near().count().max(1) as f64
}

/// The program with an error taken out: a straight follows its feed one to one, a rotation likewise, and a
/// free angle its set angle through the slope of the springback line. Blank that is left over is not cut.
pub fn corrected(program: &Program, strayed: &Strayed) -> Program {
    let mut next = program.clone();
    let mut mark = Length::ZERO;
    for (index, step) in next.steps.iter_mut().enumerate() {
        step.set_angle -= set_error(&step.forming, strayed.angles[index]);
        step.rotation = (step.rotation - strayed.rotations[index]).within_half_turn();
        step.feed -= strayed.straights[index];
        step.take_up = drawn_per_radian(&step.forming) * step.set_angle.radians();
        step.mark = mark + step.feed;
        mark = step.mark + step.take_up;
    }
    next.blank -= strayed.blank_left;
    next
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_decides_and_those_that_agree_are_averaged_in() {
        assert_eq!(agreed(&[0.25, 3.0, 0.0, 0.5], 0.5), 0.25);
        assert_eq!(agreed(&[2.0, 0.1], 0.5), 0.1);
        assert_eq!(agreed(&[1.5], 0.5), 1.5);
    }

    #[test]
    fn errors_on_both_sides_of_half_a_turn_have_a_mean() {
        let of = |degrees: f64| Strayed {
            set_angles: vec![Angle::ZERO],
            straights: vec![Length::ZERO],
            rotations: vec![Angle::from_degrees(degrees)],
            angles: vec![Angle::ZERO],
            blank_left: Length::ZERO,
        };
        let settled = Strayed::settled(&[&of(179.9), &of(-179.9)]).map(|settled| settled.rotations[0].degrees());
        assert!(settled.is_some_and(|degrees| (degrees.abs() - 180.0).abs() < 1e-9), "{settled:?}");
        assert_eq!(Strayed::settled(&[]), None);
    }
}
