//! Changes to what the shop knows of a die set in a material: trial bends, a springback line of its own, the stretch, cracks.

use elbowroom_geometry::Refusal;

use crate::model::guarded::Guard;
use crate::model::shop::Shop;
use crate::model::springback::{RecordFigures, SpringbackLine, TrialBend};

/// A change to what the shop knows of one die set in one material.
#[derive(Clone, Debug, PartialEq)]
pub struct KnowledgeEdit {
    /// The die set, by name.
    pub die: String,
    /// The material, by any name it goes by.
    pub material: String,
    /// What is to hold from now on.
    pub what: Knowledge,
}

/// What a shop can know of a die set in a material.
#[derive(Clone, Debug, PartialEq)]
pub enum Knowledge {
    /// These trial bends, in place of those there were.
    Trials(Vec<TrialBend>),
    /// A springback line of the shop's own, or none.
    Line(Option<SpringbackLine>),
    /// The share by which bends take less blank than R_die θ_set, or what the trials say.
    Stretch(Option<f64>),
    /// Whether it has been bent there without a crack.
    Uncracked(bool),
}

impl KnowledgeEdit {
    /// What undo and redo call it.
    pub fn label(&self) -> String {
        let of = format!("of {} in {}", self.die, self.material);
        match &self.what {
            Knowledge::Trials(trials) if trials.is_empty() => format!("remove the trial bends {of}"),
            Knowledge::Trials(_) => format!("change the trial bends {of}"),
            Knowledge::Line(None) => format!("give up the typed springback {of}"),
            Knowledge::Line(Some(_)) => format!("type the springback {of}"),
            Knowledge::Stretch(None) => format!("give up the typed stretch {of}"),
            Knowledge::Stretch(Some(_)) => format!("type the stretch {of}"),
            Knowledge::Uncracked(true) => format!("note that {} bends on {} without a crack", self.material, self.die),
            Knowledge::Uncracked(false) => {
                format!("take back that {} bends on {} without a crack", self.material, self.die)
            }
        }
    }

    /// The shop with this change.
    ///
    /// # Errors
    /// Refuses a die set the shop does not have, and numbers that nothing can have been measured to be.
    pub fn applied_to(&self, shop: &Shop) -> Result<Shop, Refusal> {
        if shop.die_named(&self.die).is_none() {
            return Err(Refusal::new("the die set", format!("\"{}\"", self.die), "one that the shop has"));
        }
        if self.material.trim().is_empty() {
            return Err(Refusal::new("the material", "empty", "named, such as 304 stainless"));
        }
        let mut shop = shop.clone();
        let place = shop.springback_index(&self.die, &self.material);
        let mut record = match place {
            Some(index) => shop.springback.remove(index).into_figures(),
            None => RecordFigures::new(&self.die, &self.material),
        };
        match &self.what {
            Knowledge::Trials(trials) => record.trials.clone_from(trials),
            Knowledge::Line(line) => record.line = *line,
            Knowledge::Stretch(stretch) => record.stretch = *stretch,
            Knowledge::Uncracked(uncracked) => record.uncracked = *uncracked,
        }
        let (record, index) = (record.sound()?, place.unwrap_or(shop.springback.len()));
        if !record.is_empty() {
            shop.springback.insert(index, record);
        }
        Ok(shop)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::forming::springback::SpringbackBasis;
    use crate::specimen::{self, trial};
    use elbowroom_geometry::Angle;

    fn edit(shop: &Shop, what: Knowledge) -> KnowledgeEdit {
        KnowledgeEdit { die: shop.die_sets[0].name.clone(), material: specimen::tube().material.clone(), what }
    }

    #[test]
    fn knowledge_is_put_in_and_taken_out_again() {
        let shop = specimen::shop();
        let basis = |shop: &Shop| shop.springback_of(&shop.die_sets[0], &specimen::tube()).basis;
        let trials = edit(&shop, Knowledge::Trials(vec![trial(40.0, 38.5), trial(120.0, 116.5)]));
        let with_trials = trials.applied_to(&shop).unwrap();
        assert_eq!(basis(&with_trials), SpringbackBasis::Trials);
        let line = specimen::line(1.0, 0.02);
        let with_line = edit(&shop, Knowledge::Line(Some(line))).applied_to(&with_trials).unwrap();
        assert_eq!(basis(&with_line), SpringbackBasis::Shop);
        assert_eq!(with_line.springback.len(), 1);
        let back = edit(&shop, Knowledge::Line(None)).applied_to(&with_line).unwrap();
        assert_eq!(back, with_trials);
        assert_eq!(edit(&shop, Knowledge::Trials(Vec::new())).applied_to(&back).unwrap(), shop);
    }

    #[test]
    fn what_bent_without_a_crack_is_noted_and_taken_back() {
        let shop = specimen::shop();
        let noted = edit(&shop, Knowledge::Uncracked(true)).applied_to(&shop).unwrap();
        assert!(noted.proved_stretch("304", &shop.die_sets[0]).is_some());
        assert_eq!(edit(&noted, Knowledge::Uncracked(false)).applied_to(&noted).unwrap(), shop);
    }

    #[test]
    fn an_alias_of_the_material_finds_the_same_record() {
        let shop = specimen::shop();
        let full = edit(&shop, Knowledge::Stretch(Some(0.02))).applied_to(&shop).unwrap();
        let alias = KnowledgeEdit { material: "304".into(), ..edit(&shop, Knowledge::Stretch(Some(0.03))) };
        let changed = alias.applied_to(&full).unwrap();
        assert_eq!(changed.springback.len(), 1);
        assert_eq!(changed.springback[0].stretch, Some(0.03));
    }

    #[test]
    fn what_cannot_have_been_measured_is_refused() {
        let shop = specimen::shop();
        let refused = |what| edit(&shop, what).applied_to(&shop).unwrap_err().to_string();
        let said = trial(90.0, 88.0).with(|trial| trial.measured = Angle::from_degrees(9.0)).unwrap_err();
        assert!(said.of("trial 2").to_string().starts_with("the measured angle of trial 2 is 9°"));
        let said = SpringbackLine::new(Angle::ZERO, 2.0).unwrap_err().to_string();
        assert!(said.contains("per degree is 2"), "{said}");
        assert!(refused(Knowledge::Stretch(Some(2.0))).contains("200 %"));
        let nowhere = KnowledgeEdit { die: "none".into(), ..edit(&shop, Knowledge::Stretch(None)) };
        assert!(nowhere.applied_to(&shop).is_err());
    }
}
