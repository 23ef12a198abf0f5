//! How a bend is formed in a given shop: which springback line holds, and what the limits are.

use super::springback::{SpringbackBasis, SpringbackFit, SpringbackLine, TrialRefusal, measured_stretch};
use super::wall::outer_stretch;
use crate::model::ground::Ground;
pub use crate::model::limits::{LimitFigures, Limits};
pub use crate::model::springback::{RecordFigures, SpringbackRecord};
use crate::{DieSet, Shop, Tube};

/// A springback line with everything that must be said about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Springback {
    /// The line.
    pub line: SpringbackLine,
    /// Where it comes from.
    pub basis: SpringbackBasis,
    /// The fit, where it comes from trial bends.
    pub fit: Option<SpringbackFit>,
    /// Why the trials could not be used, where they could not.
    pub refused: Option<TrialRefusal>,
    /// Whether the theory had no material to start from, so that no springback at all is assumed.
    pub material_unknown: bool,
    /// The yield stress that the theory starts from, MPa, with its source and range in words.
    pub yield_stress: Option<(f64, String)>,
    /// Share by which bends take less blank; 0 where nothing was measured.
    pub stretch: f64,
    /// Whether the stretch was measured or typed in by the shop.
    pub stretch_measured: bool,
}

impl Springback {
    /// Whether it rests on theory or on trial bends in doubt and must look unsure.
    pub fn unsure(&self) -> bool {
        Ground::from(self.basis).unsure()
    }
}

impl Shop {
    /// The largest stretch of the outer fibre OD/2R (W08), as a share, that the shop has bent this material to
    /// without a crack on tube of the die set's diameter: on that die set, or on another for the same tube.
    /// `None` where it has proved nothing.
    pub fn proved_stretch(&self, material: &str, die: &DieSet) -> Option<f64> {
        let same_tube = self.die_sets.iter().filter(|other| other.takes(die.od));
        let proved = same_tube
            .filter(|other| self.springback_record(&other.name, material).is_some_and(|known| known.uncracked));
        proved.map(|other| outer_stretch(other.od, other.clr)).reduce(f64::max)
    }

    /// Springback of a tube on a die set: the shop's own line, else one fitted to its trial bends, else
    /// theory (S03) from the material's figures, else none at all.
    pub fn springback_of(&self, die: &DieSet, tube: &Tube) -> Springback {
        let record = self.springback_record(&die.name, &tube.material);
        let fit = record.map(|record| SpringbackLine::fit_for(&record.trials, tube.wall));
        let odd = fit.as_ref().and_then(|fit| fit.as_ref().ok()?.odd());
        let measured = record.and_then(|record| {
            // What a trial that does not fit drew in says as little as its angles.
            let trials = record.trials.iter().enumerate().filter(|(index, _)| Some(*index) != odd);
            record.stretch.or_else(|| measured_stretch(die.clr, &trials.map(|(_, trial)| *trial).collect::<Vec<_>>()))
        });
        let mut found = Springback {
            line: SpringbackLine::NONE,
            basis: SpringbackBasis::Theory,
            fit: None,
            refused: None,
            material_unknown: false,
            yield_stress: None,
            stretch: measured.unwrap_or(0.0),
            stretch_measured: measured.is_some(),
        };
        if let Some(record) = record {
            if let Some(line) = record.line {
                return Springback { line, basis: SpringbackBasis::Shop, ..found };
            }
            if !record.trials.is_empty() {
                match fit.unwrap_or(Err(TrialRefusal::None)) {
                    Ok(mut fit) => {
                        fit.check_radii(die.clr, &record.trials);
                        return Springback { line: fit.line, basis: fit.basis(), fit: Some(fit), ..found };
                    }
                    Err(refusal) => found.refused = Some(refusal),
                }
            }
        }
        let theory = self.material(&tube.material).and_then(|material| {
            let (yield_mpa, modulus_gpa) = (material.yield_mpa.first()?, material.modulus_gpa.first()?);
            let line = SpringbackLine::theory(tube.od, tube.wall, die.clr, yield_mpa.value, modulus_gpa.value * 1000.0);
            Some((line.ok()?, (yield_mpa.value, yield_mpa.source.clone())))
        });
        found.material_unknown = theory.is_none();
        if let Some((line, yield_stress)) = theory {
            (found.line, found.yield_stress) = (line, Some(yield_stress));
        }
        found
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen::{self, trial};

    #[test]
    fn the_shops_own_figures_replace_the_theory() {
        let mut shop = specimen::shop();
        let (die, tube) = (shop.die_sets[0].clone(), specimen::tube());
        let theory = shop.springback_of(&die, &tube);
        assert!(theory.unsure() && theory.line.b() > 0.0);
        let trials = vec![trial(40.0, 38.5), trial(120.0, 116.5)];
        shop.springback.push(specimen::known(&die, "304", |known| known.trials = trials));
        let trials = shop.springback_of(&die, &tube);
        assert_eq!(trials.basis, SpringbackBasis::Trials);
        assert!((trials.line.b() - 0.025).abs() < 1e-12 && !trials.unsure());
        let typed = specimen::line(1.0, 0.02);
        specimen::change(&mut shop.springback[0], |known| known.line = Some(typed));
        assert_eq!(shop.springback_of(&die, &tube).line, typed);
        // Another die of the shop has proved nothing.
        assert!(shop.springback_of(&shop.die_sets[1], &tube).unsure());
    }

    #[test]
    fn trials_that_leave_a_doubt_keep_the_mark() {
        let mut shop = specimen::shop();
        let (die, tube) = (shop.die_sets[0].clone(), specimen::tube());
        for (trials, doubtful) in [
            (vec![trial(90.0, 88.0)], true),
            (vec![trial(90.0, 88.0), trial(95.0, 92.9)], true),
            (vec![trial(90.0, 88.0), trial(90.0, 88.0)], true),
            (vec![trial(30.0, 31.0), trial(120.0, 117.0)], true),
            (vec![trial(30.0, 29.0), trial(120.0, 117.0)], false),
        ] {
            let told = format!("{trials:?}");
            shop.springback = vec![specimen::known(&die, "304", |known| known.trials = trials)];
            let found = shop.springback_of(&die, &tube);
            assert_eq!(found.unsure(), doubtful, "{told}");
            assert_eq!(found.basis == SpringbackBasis::DoubtfulTrials, doubtful, "{told}");
        }
    }

    #[test]
    fn trials_of_another_wall_keep_the_mark() {
        let mut shop = specimen::shop();
        let die = shop.die_sets[0].clone();
        let trials = vec![trial(40.0, 38.5), trial(120.0, 116.5)];
        shop.springback = vec![specimen::known(&die, "304", |known| known.trials = trials)];
        let on = |wall_mm: f64| {
            let tube = specimen::tube_of_wall(wall_mm);
            shop.springback_of(&die, &tube)
        };
        for (wall_mm, basis) in [
            (1.5, SpringbackBasis::Trials),
            (1.54, SpringbackBasis::Trials),
            (1.6, SpringbackBasis::OtherWall),
            (1.2, SpringbackBasis::OtherWall),
            (2.0, SpringbackBasis::OtherWall),
        ] {
            let found = on(wall_mm);
            assert_eq!((found.basis, found.unsure()), (basis, basis == SpringbackBasis::OtherWall), "{wall_mm}");
            assert!((found.line.b() - 0.025).abs() < 1e-12, "better than theory all the same");
        }
    }

    #[test]
    fn a_stretch_is_proved_for_the_material_and_the_tube_it_was_bent_of() {
        let mut shop = specimen::shop();
        let [tight, wide, other] = [0, 1, 2].map(|index| shop.die_sets[index].clone());
        assert_eq!(shop.proved_stretch("304 stainless", &tight), None);
        shop.springback.push(specimen::known(&wide, "304", |known| known.uncracked = true));
        // 1/(2 × 2) of two diameters: enough for that die, and what is proved of tube of its size.
        assert!((shop.proved_stretch("304 stainless", &tight).unwrap() - 0.25).abs() < 1e-12);
        shop.springback.push(specimen::known(&tight, "304", |known| known.uncracked = true));
        for die in [&tight, &wide] {
            assert!((shop.proved_stretch("304", die).unwrap() - 1.0 / 3.0).abs() < 1e-12);
        }
        assert_eq!(shop.proved_stretch("304", &other), None);
        assert_eq!(shop.proved_stretch("mild steel", &tight), None);
    }

    #[test]
    fn an_unknown_material_says_so() {
        let shop = specimen::shop();
        let tube = specimen::tube().of_material("unobtainium");
        let found = shop.springback_of(&shop.die_sets[0], &tube);
        assert!(found.material_unknown && found.line == SpringbackLine::NONE);
    }
}
