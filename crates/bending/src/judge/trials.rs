//! Findings in words, with the cures that were tried: each is made on paper and solved before it is offered.

use std::collections::HashMap;
use std::sync::Arc;

use super::solved::{Solved, solve};
use crate::checks::Told;
use crate::{Edit, Fault, Finding, NodeId, Numbering, Severity, Words};

/// Bends that are solved in trials before the rest of the cures is offered untried. A solution takes about a microsecond
/// a bend, so that this is a few hundredths of a second, and more cures than anybody reads.
const MOST_BENDS: usize = 20_000;

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
    /// What comes of it; `None` where the part refuses the edit.
    effect: Option<Effect>,
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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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
    /// Tries no more than so many bends can be solved for, together over all trials: for one who must not wait.
    pub fn within(bends: usize) -> Self {
        Self { left: bends, ..Self::default() }
    }

    /// Tries nothing, for one who changes the part at every frame and cannot press a button meanwhile.
    pub fn none() -> Self {
        Self::within(0)
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
        // Where nothing is tried, nothing has to be known of thousands of findings.
        let tries = !self.tried.is_empty() || self.left >= solved.bends.len().max(1);
        let before = if tries { self.before(solved) } else { Arc::default() };
        let mut cured_with = None;
        let mut cures = Vec::new();
        for cure in &finding.cures(words) {
            let mut told = cure.told(words);
            match before.get(index).and_then(|own| Some((own, self.tried(&told.edit, &before, solved, words)?))) {
                None => cures.push(told),
                Some((own, trial)) => {
                    let Some((effect, fate)) =
                        trial.effect.as_ref().and_then(|effect| Some((effect, effect.fate(own)?)))
                    else {
                        continue;
                    };
                    if let Some(first) = trial.offered_with.filter(|first| *first != index) {
                        cured_with = cured_with.or(Some(first));
                        continue;
                    }
                    if effect.is_worse_than(own.severity) {
                        continue;
                    }
                    told.outcome = effect.told(fate);
                    trial.offered_with = Some(index);
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
    fn tried(&mut self, edit: &Edit, before: &[Left], solved: &Solved, words: &Words) -> Option<&mut Trial> {
        if let Some(known) = self.tried.iter().position(|trial| trial.edit == *edit) {
            return self.tried.get_mut(known);
        }
        self.left = self.left.checked_sub(solved.bends.len().max(1))?;
        let effect = edit.applied_to(words.part).ok().map(|part| {
            let after = solve(&part, words.shop);
            Effect::of(before, after.findings.iter().map(|finding| Left::of(finding, &after.nodes)).collect())
        });
        self.tried.push(Trial { edit: edit.clone(), offered_with: None, effect });
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

    /// What it is and where, such as `a note at bend 6 (Blank too long)`.
    fn told(&self) -> String {
        let place = self.bend.map_or_else(String::new, |bend| format!(" at bend {}", bend + 1));
        format!("a {}{place} ({})", self.severity.word(), self.title)
    }
}

/// What an edit makes of a part: what goes, what comes and what stays, whichever finding asks.
#[derive(Clone, Debug)]
struct Effect {
    /// What is found afterwards, by what it is and where: how grave it is at its worst, and how far off then.
    after: HashMap<(Fault, Spot), (Severity, f64)>,
    /// How many findings of before are gone.
    gone: usize,
    /// What was not there before, or not so gravely.
    brought: Vec<Left>,
    /// What was there before and still is.
    stay: Vec<Left>,
}

/// The gravest of each kind at each place, with how far off it is. Of a flood there are thousands.
fn gravest(left: &[Left]) -> HashMap<(Fault, Spot), (Severity, f64)> {
    let mut gravest = HashMap::with_capacity(left.len());
    for one in left {
        let known = gravest.entry((one.fault, one.at)).or_insert((one.severity, one.off));
        if one.severity > known.0 {
            *known = (one.severity, one.off);
        }
    }
    gravest
}

impl Effect {
    fn of(before: &[Left], after: Vec<Left>) -> Self {
        let (was, is) = (gravest(before), gravest(&after));
        let gone = before.iter().filter(|left| !left.around && !is.contains_key(&(left.fault, left.at))).count();
        let was_there =
            |left: &Left| was.get(&(left.fault, left.at)).is_some_and(|(severity, _)| *severity >= left.severity);
        let (stay, brought) = after.into_iter().partition(was_there);
        Self { after: is, gone, brought, stay }
    }

    /// What becomes of a finding; `None` where it neither goes nor eases.
    fn fate(&self, own: &Left) -> Option<Fate> {
        match self.after.get(&(own.fault, own.at)) {
            None => Some(Fate::Cured),
            Some((severity, _)) if *severity < own.severity => Some(Fate::Milder(*severity)),
            Some((severity, off)) if *severity == own.severity && *off < own.off - NEARER => Some(Fate::Nearer),
            Some(_) => None,
        }
    }

    /// Whether it does more harm than good to a finding of this severity: it brings something graver.
    fn is_worse_than(&self, severity: Severity) -> bool {
        self.brought.iter().any(|left| left.severity > severity)
    }

    /// In one sentence, for a finding of this fate.
    fn told(&self, fate: Fate) -> String {
        let also = self.gone.saturating_sub(usize::from(fate == Fate::Cured));
        let mut said = match fate {
            Fate::Cured if also > 0 => format!("Cures this and {also} more"),
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
