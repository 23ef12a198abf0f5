//! Springback: how far the tube opens when it is released, in theory and by the shop's own trial bends.
//!
//! Springback is close to linear in the angle (S05): Δ = a + b θ_set, both angles at the machine. The arc
//! keeps its length, so the free radius is R_die θ_set / θ_free (S01).

use elbowroom_geometry::{Angle, Length, Refusal};
use thiserror::Error;

pub use super::odd_trial::Slip;
use super::odd_trial::{Agreement, agreement, slip};
use crate::model::ground::Ground;
pub use crate::model::springback::{SpringbackLine, TrialBend, TrialFigures};

/// Where a springback line comes from: it says more than its [`Ground`], as a line that was fitted to good trials is the
/// shop's own and yet no line that somebody has typed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SpringbackBasis {
    /// The elastic, perfectly plastic tube: a start that is usually 2 to 5 times too low (S10).
    Theory,
    /// Fitted to trial bends of this die and material.
    Trials,
    /// Fitted to trial bends that leave a doubt: only one, too close together, or one that closed further.
    DoubtfulTrials,
    /// Fitted to trial bends of tube of another wall, or of a wall that nobody noted.
    OtherWall,
    /// Typed in by the shop.
    Shop,
}

impl SpringbackBasis {
    /// The weaker of two: theory before trials in doubt, before trials of another wall, before trials, before a line
    /// of the shop's own.
    #[must_use]
    pub fn weaker(self, other: Self) -> Self {
        let order = [Self::Theory, Self::DoubtfulTrials, Self::OtherWall, Self::Trials, Self::Shop];
        order.into_iter().find(|basis| *basis == self || *basis == other).unwrap_or(self)
    }
}

impl From<SpringbackBasis> for Ground {
    fn from(basis: SpringbackBasis) -> Self {
        match basis {
            SpringbackBasis::Theory => Self::Theory,
            SpringbackBasis::DoubtfulTrials => Self::DoubtfulTrials,
            SpringbackBasis::OtherWall => Self::OtherWall,
            SpringbackBasis::Trials | SpringbackBasis::Shop => Self::Shop,
        }
    }
}

/// A line fitted to trial bends.
#[derive(Clone, Debug, PartialEq)]
pub struct SpringbackFit {
    /// The line.
    pub line: SpringbackLine,
    /// For each trial, measured springback less the line's, whether or not it was counted in.
    pub residuals: Vec<Angle>,
    /// For each trial, whether the line was fitted to it: trials of another wall are left out where there are enough
    /// of the wall in hand.
    pub counted: Vec<bool>,
    /// What a careful person would remark.
    pub warnings: Vec<FitWarning>,
}

/// A reason to doubt a fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FitWarning {
    /// One trial gives no slope: the line is taken through the origin.
    OnePoint,
    /// The set angles span less than [`CLOSE_SPAN`], so the slope is a guess.
    TooClose(Angle),
    /// A trial lies further from the line than [`LARGE_RESIDUAL`].
    FarFromLine(usize, Angle),
    /// A trial says the tube closed further when released.
    Negative(usize),
    /// So many of the trials counted in were bent of another wall, and so many of a wall that nobody noted.
    OtherWall(usize, usize),
    /// A trial that lies so far off the line of the others, which agree; it is left out. What would bring it onto the line,
    /// where one slip of the pen does.
    DoesNotFit(usize, Angle, Option<Slip>),
    /// The line through two trials is one that no bender is known to have.
    Unlikely,
    /// The trials do not lie on a line, and no single one is the reason for sure.
    Scattered,
    /// The measured radius disagrees with the one that follows from the angles by more than a twentieth.
    RadiusDisagrees(usize),
}

impl FitWarning {
    /// What a careful person would say. Trials are counted from 1.
    pub fn words(&self) -> String {
        match self {
            Self::OnePoint => {
                "One trial bend gives no slope, so the line is taken through the origin; bend a second one at quite another angle.".into()
            }
            Self::TooClose(span) => format!(
                "The set angles lie only {:.1}° apart, so the slope is a guess; bend another at least {:.0}° away.",
                span.degrees(),
                CLOSE_SPAN.degrees()
            ),
            Self::FarFromLine(trial, off) => format!(
                "Trial {} lies {:.1}° off the line, more than {:.2}°; measure it again or bend it again.",
                trial + 1,
                off.abs().degrees(),
                LARGE_RESIDUAL.degrees()
            ),
            Self::Negative(trial) => format!(
                "Trial {} says that the tube closed further when it was released; check which angle was set and which was measured.",
                trial + 1
            ),
            Self::OtherWall(other, unknown) => {
                let counted = |count: &usize, what: &str| match count {
                    0 => None,
                    1 => Some(format!("one trial bend is of {what}")),
                    count => Some(format!("{count} trial bends are of {what}")),
                };
                let which = [counted(other, "another wall than this tube"), counted(unknown, "a wall that nobody noted")];
                let which = which.into_iter().flatten().collect::<Vec<_>>().join(", and ");
                format!(
                    "Of those counted in, {which}; note the wall, or bend two of this tube at least {:.0}° apart.",
                    CLOSE_SPAN.degrees()
                )
            }
            Self::DoesNotFit(trial, off, slip) => {
                let slip = slip.map_or(String::new(), |slip| format!(" It would fit {}.", slip.words()));
                format!(
                    "Trial {} does not fit: it lies {:.1}° off the line of the others, which agree, and is left out.{slip} \
                     Put it right, or remove it.",
                    trial + 1,
                    off.abs().degrees()
                )
            }
            Self::Unlikely => {
                "The line through these two is not one that a bender is known to have; measure both again, or bend a third."
                    .into()
            }
            Self::Scattered => {
                "The trials do not lie on a line, and no single one is the reason for sure; measure them again, or bend \
                 another."
                    .into()
            }
            Self::RadiusDisagrees(trial) => format!(
                "The radius measured on trial {} is not the one that follows from its angles; measure both again.",
                trial + 1
            ),
        }
    }
}

/// Set angles should span at least this. Common practice, no source.
pub const CLOSE_SPAN: Angle = Angle::from_degrees(20.0);
/// Two walls this close are the same tube: a few hundredths are within what a tube mill strays, and 1.5 mm is not 1.6.
/// Common practice, no source.
pub const SAME_WALL: Length = Length::from_mm(0.05);
/// Of a real tube springback is usually so many times what theory says, at least and at most (S10, from memory).
pub const THEORY_FALLS_SHORT: [f64; 2] = [2.0, 5.0];
/// A trial this far from the line is worth doing again. Common practice, no source.
pub const LARGE_RESIDUAL: Angle = Angle::from_degrees(0.75);

/// Why trial bends were turned away.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum TrialRefusal {
    /// There are none.
    #[error("no trial bend has been entered; bend two or more and enter set and measured angle")]
    None,
    /// A number was turned away.
    #[error(transparent)]
    Number(#[from] Refusal),
}

impl SpringbackLine {
    /// The line of an elastic, perfectly plastic round tube bent to radius `clr` (S03):
    /// θ_free/θ_set = 1 − M_p R/(E I), with M_p = 4/3 (r_o³ − r_i³) σ and I = π/4 (r_o⁴ − r_i⁴).
    /// Yield stress and modulus in MPa. Formula from memory of the text-books; only a start.
    ///
    /// # Errors
    /// Refuses a tube whose springback by this formula would be the whole bend.
    pub fn theory(od: Length, wall: Length, clr: Length, yield_mpa: f64, modulus_mpa: f64) -> Result<Self, Refusal> {
        let (outer, inner) = (od.mm() / 2.0, od.mm() / 2.0 - wall.mm());
        let plastic_moment = 4.0 / 3.0 * (outer.powi(3) - inner.powi(3)) * yield_mpa;
        let second_moment = std::f64::consts::FRAC_PI_4 * (outer.powi(4) - inner.powi(4));
        let share = plastic_moment * clr.mm() / (modulus_mpa * second_moment);
        if !(share.is_finite() && (0.0..0.9).contains(&share)) {
            let was = format!("{share:.3} of the bend");
            return Err(Refusal::new(
                "the springback by theory",
                was,
                "less than 0.9 of the bend; check yield stress, modulus and wall",
            ));
        }
        Ok(Self::worked_out(Angle::ZERO, share))
    }

    /// Fits a line by least squares to trial bends. One that does not fit where all others agree is left out, and told.
    ///
    /// # Errors
    /// Refuses an empty list, and trials so far out that no machine could bend
    /// by them: springback of half the bend or more.
    pub fn fit(trials: &[TrialBend]) -> Result<SpringbackFit, TrialRefusal> {
        let sprung = |trial: &TrialBend| (trial.set.degrees(), (trial.set - trial.measured).degrees());
        let remark = match agreement(&trials.iter().map(sprung).collect::<Vec<_>>()) {
            Agreement::AllBut(odd) => return Self::fit_without(trials, odd),
            // What is to be said of one alone, or of one that closed further, is said already.
            _ if trials.len() < 2 || trials.iter().any(|trial| trial.measured > trial.set) => None,
            Agreement::OnALine => None,
            Agreement::Unlikely => Some(FitWarning::Unlikely),
            Agreement::Scattered => Some(FitWarning::Scattered),
        };
        let mut fit = Self::fit_all(trials)?;
        fit.warnings.extend(remark);
        Ok(fit)
    }

    /// Fits a line to all but one, which lies elsewhere.
    fn fit_without(trials: &[TrialBend], odd: usize) -> Result<SpringbackFit, TrialRefusal> {
        let mut others = trials.to_vec();
        let left_out = others.remove(odd);
        let fit = Self::fit_all(&others)?;
        let line = fit.line;
        let off = line.free(left_out.set) - left_out.measured;
        let slip = slip((left_out.set.degrees(), left_out.measured.degrees()), (line.a().degrees(), line.b()));
        let mut warnings = vec![FitWarning::DoesNotFit(odd, off, slip)];
        warnings.extend(fit.warnings.into_iter().map(|warning| warning.of(|index| index + usize::from(index >= odd))));
        Ok(SpringbackFit {
            line,
            residuals: trials.iter().map(|trial| line.free(trial.set) - trial.measured).collect(),
            counted: (0..trials.len()).map(|index| index != odd).collect(),
            warnings,
        })
    }

    /// Fits a line by least squares to trial bends, every one of them.
    ///
    /// # Errors
    /// Refuses an empty list, and trials so far out that no machine could bend
    /// by them: springback of half the bend or more.
    fn fit_all(trials: &[TrialBend]) -> Result<SpringbackFit, TrialRefusal> {
        let count = trials.len() as f64;
        let (line, mut warnings) = match trials {
            [] => return Err(TrialRefusal::None),
            [only] => {
                let b = (only.set - only.measured) / only.set;
                (Self::worked_out(Angle::ZERO, b), vec![FitWarning::OnePoint])
            }
            _ => {
                let mean_set = trials.iter().map(|trial| trial.set).sum::<Angle>() / count;
                let mean_back = trials.iter().map(|trial| trial.set - trial.measured).sum::<Angle>() / count;
                let spread: f64 = trials.iter().map(|trial| (trial.set - mean_set).radians().powi(2)).sum();
                let together: f64 = trials
                    .iter()
                    .map(|trial| (trial.set - mean_set).radians() * (trial.set - trial.measured - mean_back).radians())
                    .sum();
                let low = trials.iter().map(|trial| trial.set.radians()).fold(f64::INFINITY, f64::min);
                let high = trials.iter().map(|trial| trial.set.radians()).fold(f64::NEG_INFINITY, f64::max);
                let span = Angle::from_radians(high - low);
                let warnings = if span < CLOSE_SPAN { vec![FitWarning::TooClose(span)] } else { Vec::new() };
                // Trials all at one angle say nothing of the slope: the line then goes through the origin.
                if spread < 1e-12 {
                    (Self::worked_out(Angle::ZERO, mean_back / mean_set), warnings)
                } else {
                    let b = together / spread;
                    (Self::worked_out(mean_back - mean_set * b, b), warnings)
                }
            }
        };
        if !(line.b().abs() < Self::LARGEST_SHARE && line.a().abs() < Self::LARGEST_START) {
            let was = format!("{:.2}° + {:.3} per degree", line.a().degrees(), line.b());
            return Err(Refusal::new(
                "the springback fitted",
                was,
                "a few degrees; check which angle was set and which measured",
            )
            .into());
        }
        let residuals: Vec<Angle> = trials.iter().map(|trial| line.free(trial.set) - trial.measured).collect();
        for (index, (trial, residual)) in trials.iter().zip(&residuals).enumerate() {
            if residual.abs() > LARGE_RESIDUAL {
                warnings.push(FitWarning::FarFromLine(index, *residual));
            }
            if trial.measured > trial.set {
                warnings.push(FitWarning::Negative(index));
            }
        }
        Ok(SpringbackFit { line, residuals, counted: vec![true; trials.len()], warnings })
    }

    /// Fits a line to the trial bends for a tube of a wall: to those of that wall where they suffice for a line, else to
    /// all of them, and then says so.
    ///
    /// # Errors
    /// Those of [`Self::fit`].
    pub fn fit_for(trials: &[TrialBend], wall: Length) -> Result<SpringbackFit, TrialRefusal> {
        let is_own = |trial: &TrialBend| trial.wall.is_some_and(|of| (of - wall).abs() <= SAME_WALL);
        let own: Vec<usize> = (0..trials.len()).filter(|&index| is_own(&trials[index])).collect();
        if own.len() == trials.len() {
            return Self::fit(trials);
        }
        let of_wall: Vec<TrialBend> = own.iter().map(|&index| trials[index]).collect();
        if let Ok(fit) = Self::fit(&of_wall)
            && fit.basis() == SpringbackBasis::Trials
        {
            return Ok(SpringbackFit {
                line: fit.line,
                residuals: trials.iter().map(|trial| fit.line.free(trial.set) - trial.measured).collect(),
                counted: (0..trials.len())
                    .map(|index| own.iter().zip(&fit.counted).any(|it| it == (&index, &true)))
                    .collect(),
                warnings: fit.warnings.into_iter().map(|warning| warning.of(|index| own[index])).collect(),
            });
        }
        let mut fit = Self::fit(trials)?;
        let unknown = trials.iter().filter(|trial| trial.wall.is_none()).count();
        fit.warnings.push(FitWarning::OtherWall(trials.len() - own.len() - unknown, unknown));
        Ok(fit)
    }

    /// Between which angles a bend usually opens that this line of theory opens by so much.
    pub fn usually_opens(by_theory: Angle) -> [Angle; 2] {
        THEORY_FALLS_SHORT.map(|times| by_theory * times)
    }
}

impl FitWarning {
    /// The same of trials that stand elsewhere in a list.
    fn of(self, place: impl Fn(usize) -> usize) -> Self {
        match self {
            Self::FarFromLine(index, off) => Self::FarFromLine(place(index), off),
            Self::Negative(index) => Self::Negative(place(index)),
            Self::RadiusDisagrees(index) => Self::RadiusDisagrees(place(index)),
            Self::DoesNotFit(index, off, slip) => Self::DoesNotFit(place(index), off, slip),
            Self::OnePoint | Self::TooClose(_) | Self::OtherWall(..) | Self::Unlikely | Self::Scattered => self,
        }
    }
}

impl SpringbackFit {
    /// The trial that does not fit the others and is left out.
    pub fn odd(&self) -> Option<usize> {
        self.warnings.iter().find_map(|warning| match warning {
            FitWarning::DoesNotFit(trial, ..) => Some(*trial),
            _ => None,
        })
    }

    /// What the line rests on: trials that say nothing sure of the slope, or that cannot be right, prove nothing.
    pub fn basis(&self) -> SpringbackBasis {
        let is_doubtful = |warning: &FitWarning| {
            use FitWarning::{Negative, OnePoint, Scattered, TooClose, Unlikely};
            matches!(warning, OnePoint | TooClose(_) | Negative(_) | Unlikely | Scattered)
        };
        if self.warnings.iter().any(is_doubtful) {
            SpringbackBasis::DoubtfulTrials
        } else if self.warnings.iter().any(|warning| matches!(warning, FitWarning::OtherWall(..))) {
            SpringbackBasis::OtherWall
        } else {
            SpringbackBasis::Trials
        }
    }

    /// Adds a warning for each trial whose measured radius disagrees with the one that follows from the
    /// angles on a die of radius `die` (S01).
    pub fn check_radii(&mut self, die: Length, trials: &[TrialBend]) {
        for (index, trial) in trials.iter().enumerate() {
            let expected = die * (trial.set / trial.measured);
            if trial.measured_radius.is_some_and(|radius| (radius / expected - 1.0).abs() > 0.05) {
                self.warnings.push(FitWarning::RadiusDisagrees(index));
            }
        }
    }
}

/// Share by which bends took less blank than R_die θ_set, the mean over the trials that say so. `None`
/// where none does.
pub fn measured_stretch(die: Length, trials: &[TrialBend]) -> Option<f64> {
    let shares: Vec<f64> = trials
        .iter()
        .filter_map(|trial| trial.drawn_length.map(|drawn| 1.0 - drawn.mm() / (die.mm() * trial.set.radians())))
        .collect();
    (!shares.is_empty()).then(|| shares.iter().sum::<f64>() / shares.len() as f64)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen::{line as own, trial};
    use approx::assert_abs_diff_eq;

    fn theory(od: f64, wall: f64, clr: f64, yield_mpa: f64, modulus_mpa: f64) -> SpringbackLine {
        let mm = Length::from_mm;
        SpringbackLine::theory(mm(od), mm(wall), mm(clr), yield_mpa, modulus_mpa).unwrap()
    }

    #[test]
    fn theory_against_worked_numbers() {
        // Elastic, perfectly plastic round tube; formula from memory of the text-books, numbers arithmetic.
        let line = theory(50.8, 1.5, 76.2, 300.0, 193_000.0);
        assert_abs_diff_eq!(1.0 - line.b(), 0.993886, epsilon = 5e-7);
        let quarter = Angle::from_degrees(90.0);
        assert_abs_diff_eq!((quarter - line.free(quarter)).degrees(), 0.550, epsilon = 5e-4);
        for (line, degrees) in [
            (theory(50.8, 1.5, 76.2, 700.0, 193_000.0), 1.284),
            (theory(50.8, 1.5, 76.2, 250.0, 205_000.0), 0.432),
            (theory(50.8, 0.889, 101.6, 145.0, 68_900.0), 0.982),
            (theory(50.8, 1.0, 76.2, 345.0, 103_000.0), 1.174),
        ] {
            assert_abs_diff_eq!((quarter - line.free(quarter)).degrees(), degrees, epsilon = 1e-3);
        }
    }

    #[test]
    fn free_radius_keeps_the_arc_length() {
        // R_loaded θ_loaded = R_free θ_free (text-book, from memory): 76.2 at 92° to 90° gives 77.893.
        let line = own(2.0, 0.0);
        assert_abs_diff_eq!(
            line.free_radius(Length::from_mm(76.2), Angle::from_degrees(90.0)).mm(),
            77.893,
            epsilon = 5e-4
        );
    }

    #[test]
    fn set_and_free_are_inverse() {
        let line = own(0.7, 0.021);
        for degrees in [0.5, 10.0, 45.0, 90.0, 180.0] {
            let free = Angle::from_degrees(degrees);
            assert_abs_diff_eq!(line.free(line.set(free)).degrees(), degrees, epsilon = 1e-12);
        }
    }

    #[test]
    fn least_squares_on_a_hand_computed_case() {
        // Springback 1, 2, 4 at 30, 60, 90: slope 0.05, intercept -2/3, residuals by hand.
        let fit = SpringbackLine::fit(&[trial(30.0, 29.0), trial(60.0, 58.0), trial(90.0, 86.0)]).unwrap();
        assert_abs_diff_eq!(fit.line.b(), 0.05, epsilon = 1e-12);
        assert_abs_diff_eq!(fit.line.a().degrees(), -2.0 / 3.0, epsilon = 1e-12);
        let residuals: Vec<f64> = fit.residuals.iter().map(|residual| residual.degrees()).collect();
        for (residual, expected) in residuals.iter().zip([1.0 / 6.0, -1.0 / 3.0, 1.0 / 6.0]) {
            assert_abs_diff_eq!(*residual, expected, epsilon = 1e-10);
        }
        assert!(fit.warnings.is_empty());
    }

    #[test]
    fn doubtful_trials_are_told() {
        assert_eq!(SpringbackLine::fit(&[]), Err(TrialRefusal::None));
        assert_eq!(SpringbackLine::fit(&[trial(90.0, 88.0)]).unwrap().warnings, vec![FitWarning::OnePoint]);
        let close = SpringbackLine::fit(&[trial(90.0, 88.0), trial(95.0, 92.9)]).unwrap();
        assert!(matches!(close.warnings[..], [FitWarning::TooClose(_)]));
        let apart = SpringbackLine::fit(&[trial(100.0, 51.0), trial(20.0, 29.0)]);
        assert!(apart.unwrap_err().to_string().starts_with("the springback fitted is "));
        let odd = SpringbackLine::fit(&[trial(30.0, 29.0), trial(60.0, 62.0), trial(90.0, 88.0)]).unwrap();
        assert!(matches!(odd.warnings[..], [FitWarning::DoesNotFit(1, ..)]), "{:?}", odd.warnings);
        assert_eq!((odd.counted.as_slice(), odd.basis()), ([true, false, true].as_slice(), SpringbackBasis::Trials));
        let both = SpringbackLine::fit(&[trial(30.0, 31.0), trial(120.0, 117.0)]).unwrap();
        assert!(both.warnings.contains(&FitWarning::Negative(0)));
        // Two through which goes a line that says 4.5° too much at no angle, and three of which any may be wrong.
        let two = SpringbackLine::fit(&[trial(40.0, 38.5), trial(120.0, 106.5)]).unwrap();
        assert_eq!(
            (two.warnings.as_slice(), two.basis()),
            ([FitWarning::Unlikely].as_slice(), SpringbackBasis::DoubtfulTrials)
        );
        let three = SpringbackLine::fit(&[trial(30.0, 28.8), trial(60.0, 57.0), trial(90.0, 87.6)]).unwrap();
        assert!(three.warnings.contains(&FitWarning::Scattered) && three.basis() == SpringbackBasis::DoubtfulTrials);
    }

    #[test]
    fn trials_of_the_wall_in_hand_go_before_those_of_another() {
        let of = |set: f64, measured: f64, wall: Option<f64>| {
            trial(set, measured).with(|trial| trial.wall = wall.map(Length::from_mm)).unwrap()
        };
        let fit = |trials: &[TrialBend]| SpringbackLine::fit_for(trials, Length::from_mm(1.5)).unwrap();
        // Two of this wall at 0.02 a degree, two of another at 0.04: the first two alone, wherever they stand.
        let mixed = [
            of(50.0, 48.0, Some(2.0)),
            of(40.0, 39.2, Some(1.5)),
            of(100.0, 96.0, Some(2.0)),
            of(140.0, 137.2, Some(1.52)),
        ];
        let found = fit(&mixed);
        assert_abs_diff_eq!(found.line.b(), 0.02, epsilon = 1e-12);
        assert_eq!((found.basis(), found.counted), (SpringbackBasis::Trials, vec![false, true, false, true]));
        assert_abs_diff_eq!(found.residuals[2].degrees(), 2.0, epsilon = 1e-9);
        // One of this wall is no line: all are counted in, and it is said.
        let found = fit(&mixed[..3]);
        assert_eq!((found.basis(), found.counted), (SpringbackBasis::OtherWall, vec![true; 3]));
        assert_eq!(found.warnings.last(), Some(&FitWarning::OtherWall(2, 0)));
        assert!(found.warnings.last().unwrap().words().contains("2 trial bends are of another wall than this tube"));
        // A wall that nobody noted may be any.
        let found = fit(&[of(40.0, 39.2, None), of(140.0, 137.2, None)]);
        assert_eq!(found.basis(), SpringbackBasis::OtherWall);
        assert!(found.warnings[0].words().contains("2 trial bends are of a wall that nobody noted"));
        // What is doubtful on any wall stays so.
        assert_eq!(fit(&[of(90.0, 88.0, None)]).basis(), SpringbackBasis::DoubtfulTrials);
        // A remark on a trial of the wall in hand names its place among all.
        let odd = [
            of(50.0, 48.0, Some(2.0)),
            of(30.0, 29.4, Some(1.5)),
            of(90.0, 86.0, Some(1.5)),
            of(150.0, 147.0, Some(1.5)),
        ];
        let named = |warning: &FitWarning| matches!(warning, FitWarning::DoesNotFit(2, ..));
        assert!(fit(&odd).warnings.iter().any(named));
        assert_eq!(fit(&odd).counted, [false, true, false, true]);
    }

    #[test]
    fn the_weaker_of_two_grounds_is_the_same_in_either_order() {
        use SpringbackBasis::{DoubtfulTrials, OtherWall, Shop, Theory, Trials};
        let order = [Theory, DoubtfulTrials, OtherWall, Trials, Shop];
        for (place, weak) in order.into_iter().enumerate() {
            for strong in &order[place..] {
                assert_eq!((weak.weaker(*strong), strong.weaker(weak)), (weak, weak));
            }
        }
    }

    #[test]
    fn stretch_is_what_the_blank_did_not_give() {
        let die = Length::from_mm(100.0);
        let mut measured = trial(90.0, 89.0);
        let drawn = Length::from_mm(100.0 * std::f64::consts::FRAC_PI_2 * 0.97);
        measured.change(|trial| trial.drawn_length = Some(drawn)).unwrap();
        assert_abs_diff_eq!(measured_stretch(die, &[measured, trial(30.0, 29.5)]).unwrap(), 0.03, epsilon = 1e-12);
        assert_eq!(measured_stretch(die, &[trial(30.0, 29.5)]), None);
    }
}
