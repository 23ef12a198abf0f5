//! Findings in words, with the cures that were tried: each is made on paper and solved before it is offered.

use std::sync::Arc;

use super::solved::{Solved, solve};
use crate::checks::Told;
use crate::{Edit, Fault, Finding, NodeId, Numbering, Severity, Words};

/// Bends that are solved in trials before the rest of the cures is offered untried. A solution takes about a microsecond
/// a bend, so that this is a tenth of a second, and more cures than anybody reads.
const MOST_BENDS: usize = 100_000;

/// What is said of a trial of a tube beside which something stands.
const NOT_ANEW: &str = "What stands around it is measured once it is done.";

/// Findings that are named one by one in what a cure leaves; more are counted.
const NAMED: usize = 2;

/// Puts the findings of one solution into words. A cure that several findings have in common is tried once and offered
/// with the first of them.
#[derive(Clone, Debug)]
pub struct Trials {
    /// What was found in the part as it is.
    before: Arc<[Left]>,
    tried: Vec<Trial>,
    /// Bends that may still be solved.
    left: usize,
}

/// A cure's edit and what came of it.
#[derive(Clone, Debug)]
struct Trial {
    edit: Edit,
    /// The finding that it was offered with first; `None` where it was offered with none.
    offered_with: Option<usize>,
    /// What was found afterwards; `None` where the part refuses the edit.
    after: Option<Vec<Left>>,
}

/// Something found in a part, so far as it can be found again after an edit.
#[derive(Clone, Copy, Debug)]
struct Left {
    fault: Fault,
    title: &'static str,
    severity: Severity,
    /// The bend or straight that it speaks of, by its id.
    at: Spot,
    /// Its bend by its number from 0, where it speaks of one.
    bend: Option<usize>,
    /// Whether it is of what stands around the tube, which a trial does not measure anew.
    around: bool,
    /// How far what was measured is from what it may be, in the unit of both.
    off: f64,
}

/// A place that stays itself through an edit.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Spot {
    Bend(NodeId),
    Straight(NodeId),
    Whole,
}

impl Default for Trials {
    fn default() -> Self {
        Self { before: Arc::default(), tried: Vec::new(), left: MOST_BENDS }
    }
}

/// What counts as nearer, in mm, degrees, percent or whatever the finding counts: less is rounding.
const NEARER: f64 = 1e-9;

/// What became of a finding by its cure.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Fate {
    Cured,
    /// It is there again, milder.
    Milder(Severity),
    /// It is there again and as grave, with what was measured nearer to what it may be.
    Nearer,
}

impl Trials {
    /// Tries nothing, for one who changes the part at every frame and cannot press a button meanwhile.
    pub fn none() -> Self {
        Self { left: 0, ..Self::default() }
    }

    /// What was found in the part as it is, worked out once.
    fn before(&mut self, solved: &Solved) -> Arc<[Left]> {
        if self.before.len() != solved.findings.len() {
            self.before = solved.findings.iter().map(|finding| Left::of(finding, &solved.nodes)).collect();
        }
        Arc::clone(&self.before)
    }

    /// A finding in words, by its number from 0. All findings must be of the same solution, in their order.
    pub fn told(&mut self, index: usize, solved: &Solved, words: &Words) -> Told {
        let finding = &solved.findings[index];
        let before = self.before(solved);
        let mut cured_with = None;
        let mut cures = Vec::new();
        for cure in &finding.cures(words) {
            let mut told = cure.told(words);
            match self.tried(&told.edit, solved, words) {
                None => cures.push(told),
                Some(trial) => {
                    let outcome = trial.after.as_ref().and_then(|after| Outcome::of(index, &before, after));
                    let Some(outcome) = outcome.filter(|outcome| !outcome.is_worse_than(finding.severity)) else {
                        continue;
                    };
                    if let Some(first) = trial.offered_with.filter(|first| *first != index) {
                        cured_with = cured_with.or(Some(first));
                        continue;
                    }
                    trial.offered_with = Some(index);
                    told.outcome = outcome.told();
                    if !solved.clearances.is_empty() {
                        told.outcome += " ";
                        told.outcome += NOT_ANEW;
                    }
                    cures.push(told);
                }
            }
        }
        finding.told(words, cures, cured_with)
    }

    /// What comes of an edit, tried at its first mention; `None` where it isn't tried any more.
    fn tried(&mut self, edit: &Edit, solved: &Solved, words: &Words) -> Option<&mut Trial> {
        if let Some(known) = self.tried.iter().position(|trial| trial.edit == *edit) {
            return self.tried.get_mut(known);
        }
        self.left = self.left.checked_sub(solved.bends.len().max(1))?;
        let after = edit.applied_to(words.part).ok().map(|part| {
            let after = solve(&part, words.shop);
            after.findings.iter().map(|finding| Left::of(finding, &after.nodes)).collect()
        });
        self.tried.push(Trial { edit: edit.clone(), offered_with: None, after });
        self.tried.last_mut()
    }
}

impl Left {
    fn of(finding: &Finding, nodes: &Numbering) -> Self {
        let at = match (finding.place.bend, finding.place.straight) {
            (Some(bend), _) => Spot::Bend(nodes.bend(bend)),
            (None, Some(straight)) => Spot::Straight(nodes.straight(straight)),
            (None, None) => Spot::Whole,
        };
        Self {
            fault: finding.fault,
            title: finding.title(),
            severity: finding.severity,
            at,
            bend: finding.place.bend,
            around: finding.is_of_surroundings(),
            off: (finding.measured - finding.limit).abs(),
        }
    }

    /// Whether both speak of the same thing in the same place.
    fn is_as(&self, other: &Self) -> bool {
        (self.fault, self.at) == (other.fault, other.at)
    }

    /// What it is and where, such as `a note at bend 6 (Blank too long)`.
    fn told(&self) -> String {
        let place = self.bend.map_or_else(String::new, |bend| format!(" at bend {}", bend + 1));
        format!("a {}{place} ({})", self.severity.word(), self.title)
    }
}

/// What became of a finding, with what was found beside it before and after.
struct Outcome {
    fate: Fate,
    /// Other findings that went along.
    also: usize,
    /// What was not there before, or not so gravely.
    brought: Vec<Left>,
    /// What was there before and still is, the finding itself among it.
    stay: Vec<Left>,
}

impl Outcome {
    /// What came of a trial for a finding, by its number; `None` where the finding neither goes nor eases.
    fn of(index: usize, before: &[Left], after: &[Left]) -> Option<Self> {
        let own = before.get(index)?;
        let again = |left: &Left| after.iter().filter(|one| one.is_as(left)).max_by_key(|one| one.severity);
        let fate = match again(own) {
            None => Fate::Cured,
            Some(left) if left.severity < own.severity => Fate::Milder(left.severity),
            Some(left) if left.severity == own.severity && left.off < own.off - NEARER => Fate::Nearer,
            Some(_) => return None,
        };
        let gone = before.iter().filter(|left| !left.around && again(left).is_none()).count();
        let was_there = |left: &&Left| before.iter().any(|one| one.is_as(left) && one.severity >= left.severity);
        let (stay, brought): (Vec<&Left>, Vec<&Left>) = after.iter().partition(was_there);
        let also = gone.saturating_sub(usize::from(fate == Fate::Cured));
        Some(Self {
            fate,
            also,
            brought: brought.into_iter().copied().collect(),
            stay: stay.into_iter().copied().collect(),
        })
    }

    /// Whether it does more harm than good: it brings something graver than what it cures.
    fn is_worse_than(&self, severity: Severity) -> bool {
        self.brought.iter().any(|left| left.severity > severity)
    }

    /// In one sentence.
    fn told(&self) -> String {
        let mut said = match self.fate {
            Fate::Cured if self.also > 0 => format!("Cures this and {} more", self.also),
            Fate::Cured => "Cures this".to_owned(),
            Fate::Milder(severity) => format!("Eases this to a {}", severity.word()),
            Fate::Nearer => "Eases this".to_owned(),
        };
        let (brought, stay) = (&self.brought, &self.stay);
        if !brought.is_empty() {
            said += &format!(", but brings {}", named(brought));
        }
        said += &match (brought.is_empty(), stay.is_empty()) {
            (true, true) => "; nothing else is found.".to_owned(),
            (false, true) => ".".to_owned(),
            (_, false) => format!("; leaves {}.", named(stay)),
        };
        said
    }
}

/// Findings by name, or counted where they are many.
fn named(left: &[Left]) -> String {
    if left.len() <= NAMED {
        return left.iter().map(Left::told).collect::<Vec<_>>().join(" and ");
    }
    let counted = [Severity::Stop, Severity::Caution, Severity::Note].into_iter().filter_map(|severity| {
        let count = left.iter().filter(|one| one.severity == severity).count();
        let plural = if count == 1 { "" } else { "s" };
        (count > 0).then(|| format!("{count} {}{plural}", severity.word()))
    });
    counted.collect::<Vec<_>>().join(" and ")
}

impl Solved {
    /// Every finding in words, with the cures that cure it.
    pub fn told(&self, words: &Words) -> Vec<Told> {
        let mut trials = Trials::default();
        (0..self.findings.len()).map(|index| trials.told(index, self, words)).collect()
    }
}
