//! `no-die-for-radius`: no die set bends this tube at this radius, or the part wants more than one.

use elbowroom_geometry::Length;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::{Cures, Remedy};
use super::cures::{die_radii, nearest_radius, set_clr};
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::name::DieNumber;
use super::words::Words;
use crate::DieSet;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "no-die-for-radius",
    title: "No die for the radius",
    severity: "A stop where no die set of the shop fits; a caution where the bends have several radii, so that dies are stacked or changed.",
    summary: "No die set bends this tube at this radius, or the part has more than one radius.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Radii,
    run,
};

const MANUAL: &str = "\
What it looks for
  A bend for which the shop has no die set of this outside diameter and radius; a chosen die set that
  does not fit, has no clamp, or is not in the shop; and more than one radius in a part.

Why it matters
  A bend die is made for one outside diameter and one radius. A tube in a die of another diameter is
  crushed or wrinkles. Two radii in one part mean stacked tooling, which not every machine takes, or a
  change-over between bends of the same piece.

How it is measured
  Outside diameter and CLR of the bend against those of the die sets in the shop file. Two that differ by
  no more than 0.1 mm count as the same tooling.

Limit and its source
  What the shop owns. The 0.1 mm is common practice, no source. One radius in a part is preferred in the
  trade (jettron.com, design guidelines). It is a stop where there is no die, a caution where there are
  several radii.

Example
  50.8 mm tube at CLR 80 mm, in a shop with dies at 76.2 and 101.6 mm.

Cure and its risk
  Take the radius of a die that is there. In a drawing of vertices the vertices stay and the straights
  change; in rows the straights stay and everything beyond moves. A smaller radius thins the outside wall
  more.

Caution
  Never bend in a die that does not fit the tube. Dies are heavy: lift them as the machine maker says.
";

/// What is wrong with the tooling for a radius. Bends by their numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// The die set that the part names is not there.
    Unknown,
    /// No die set fits a bend; whether the shop has any for this tube at all.
    None(u32, bool),
    /// The die set is for tube of another diameter: those two are what was measured.
    OtherTube(u32, DieNumber),
    /// The die set bends another radius.
    OtherRadius(u32, DieNumber),
    /// The die set has no clamp.
    NoClamp(u32, DieNumber),
    /// So many radii as was measured; the first of them in rising order, mm.
    Several([f64; NAMED_RADII]),
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let chosen = subject.part.tooling.die.as_deref();
    if chosen.is_some_and(|name| subject.shop.die_named(name).is_none()) {
        if let Some(index) = subject.solved.in_order().next() {
            tell(stop(subject, index, 0.0), Evidence::Unknown);
        }
    } else {
        for (index, made) in subject.solved.bends.iter().enumerate() {
            if !made.is_bent() || subject.is_fold_back(index) {
                continue;
            }
            let number = subject.number(index);
            match subject.numbered_die_of(made) {
                None => {
                    let nearest = nearest_radius(subject, index);
                    let facts = stop(subject, index, nearest.map_or(0.0, Length::mm));
                    tell(facts, Evidence::None(number, nearest.is_some()));
                }
                Some((die, set)) if !set.fits(subject.part.tube.od, Length::from_mm(made.clr_mm)) => {
                    unfit(subject, index, die, set, tell);
                }
                Some((die, set)) if made.clamp.is_none() => {
                    tell(stop(subject, index, set.clr.mm()), Evidence::NoClamp(number, die));
                }
                Some(_) => {}
            }
        }
    }
    several_radii(subject, tell);
}

/// A stop at a bend, measured by its radius against that of a die (0 where there is none to compare).
fn stop(subject: &Subject, index: usize, limit_mm: f64) -> Facts {
    Facts {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: subject.solved.bends[index].clr_mm,
        limit: limit_mm,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
    }
}

/// The cure of leaving the choice to the shop, where it has a die set for the bend.
fn leave_to_shop(subject: &Subject, index: usize) -> Option<Remedy> {
    let (od, clr) = (subject.part.tube.od, Length::from_mm(subject.solved.bends[index].clr_mm));
    let die = subject.shop.die_sets.iter().position(|die| die.fits(od, clr))?;
    Some(Remedy::LeaveDie { die: DieNumber::new(die) })
}

fn unfit(subject: &Subject, index: usize, die: DieNumber, set: &DieSet, tell: Tell<Evidence>) {
    let (od, number) = (subject.part.tube.od, subject.number(index));
    if set.takes(od) {
        tell(stop(subject, index, set.clr.mm()), Evidence::OtherRadius(number, die));
    } else {
        let facts = stop(subject, index, set.od.mm());
        tell(Facts { measured: od.mm(), ..facts }, Evidence::OtherTube(number, die));
    }
}

/// How many radii are named before the rest is only counted.
const NAMED_RADII: usize = 4;

/// The bends that have a radius, in the order in which they are made.
fn counted(subject: &Subject) -> impl Iterator<Item = usize> {
    subject.solved.in_order().filter(|index| !subject.is_fold_back(*index))
}

/// The radii of a part in rising order, mm, each with how many bends have it.
fn kinds(subject: &Subject) -> Vec<(f64, usize)> {
    let mut radii: Vec<f64> = counted(subject).map(|index| subject.solved.bends[index].clr_mm).collect();
    radii.sort_by(f64::total_cmp);
    let mut kinds: Vec<(f64, usize)> = Vec::new();
    for radius_mm in radii {
        match kinds.last_mut() {
            Some((same, count)) if radius_mm - *same <= DieSet::SAME_SIZE.mm() => *count += 1,
            _ => kinds.push((radius_mm, 1)),
        }
    }
    kinds
}

/// The radius that most of the bends have of those that the shop can bend this tube to.
fn usual_radius(subject: &Subject) -> Option<Length> {
    let is_there = |radius_mm: f64| subject.shop.die_for(subject.part.tube.od, Length::from_mm(radius_mm)).is_some();
    let kinds = kinds(subject).into_iter().filter(|(radius_mm, _)| is_there(*radius_mm));
    kinds.max_by_key(|(_, count)| *count).map(|(radius_mm, _)| Length::from_mm(radius_mm))
}

fn several_radii(subject: &Subject, tell: Tell<Evidence>) {
    let bends = &subject.solved.bends;
    let Some(first_mm) = counted(subject).next().map(|index| bends[index].clr_mm) else { return };
    let is_other = |index: &usize| (bends[*index].clr_mm - first_mm).abs() > DieSet::SAME_SIZE.mm();
    let Some(other) = counted(subject).find(is_other) else { return };
    let kinds = kinds(subject);
    let facts = Facts {
        fault: CHECK.fault,
        severity: Severity::Caution,
        place: subject.arc_place(other),
        also: Vec::new(),
        measured: kinds.len() as f64,
        limit: 1.0,
        unit: Unit::Count,
        measured_basis: None,
        limit_basis: None,
    };
    let mut named = [0.0; NAMED_RADII];
    named.iter_mut().zip(&kinds).for_each(|(name, (radius_mm, _))| *name = *radius_mm);
    tell(facts, Evidence::Several(named));
}

impl Evidence {
    /// What stands in the way at a bend, in a few words, and the sentence that says more.
    fn both(self, facts: &Facts, words: &Words) -> [String; 2] {
        let (od, clr) = (words.length(words.part.tube.od.mm()), words.length(facts.measured));
        match self {
            Self::Unknown => {
                let name = words.part.tooling.die.as_deref().unwrap_or_default();
                let names: Vec<&str> = words.shop.die_sets.iter().map(|die| die.name.as_str()).collect();
                let has = if names.is_empty() { "it has none".into() } else { format!("it has {}", names.join(", ")) };
                let no = format!("the shop has no die set called \u{201c}{name}\u{201d}");
                let text = format!("The shop has no die set called \u{201c}{name}\u{201d}; {has}.");
                [no, text]
            }
            Self::None(bend, has_some) => {
                let more = if has_some { String::new() } else { format!(" It has none for {od} tube at all.") };
                [
                    format!("the shop has no die for bend {bend} at CLR {clr}"),
                    format!("Bend {bend}: the shop has no die set for {od} tube at CLR {clr}.{more}"),
                ]
            }
            Self::OtherTube(bend, die) => {
                let (die, takes) = (words.die(die), words.length(facts.limit));
                [
                    format!("die set {die} is not for {od} tube"),
                    format!("Bend {bend}: die set {die} is for {takes} tube, not {od}."),
                ]
            }
            Self::OtherRadius(bend, die) => {
                let (die, bends) = (words.die(die), words.length(facts.limit));
                [
                    format!("die set {die} does not bend CLR {clr}"),
                    format!("Bend {bend}: die set {die} bends CLR {bends}, not {clr}."),
                ]
            }
            Self::NoClamp(bend, die) => {
                let die = words.die(die);
                [
                    format!("die set {die} has no clamp"),
                    format!("Bend {bend}: die set {die} has no clamp in the shop file."),
                ]
            }
            Self::Several(radii) => {
                let count = facts.measured as usize;
                let mut named: Vec<String> =
                    radii.iter().take(count).map(|radius_mm| words.length(*radius_mm).to_string()).collect();
                if count > NAMED_RADII {
                    named.push(format!("{} more", count - NAMED_RADII));
                }
                [
                    format!("the part has {count} radii"),
                    format!(
                        "The part has {count} radii ({}): stacked tooling, or a change-over between bends.",
                        named.join(", ")
                    ),
                ]
            }
        }
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let [_, text] = self.both(facts, words);
        text
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let [what, _] = self.both(facts, words);
        match self {
            Self::Several(_) => format!("Bends, but with a change of tooling: {what}."),
            _ => format!("Cannot be bent as drawn: {what}."),
        }
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let index = facts.place.bend?;
        match self {
            Self::Unknown | Self::OtherTube(..) => leave_to_shop(subject, index).map(Cures::from),
            Self::None(..) => die_radii(subject, index),
            Self::OtherRadius(_, die) => {
                // The die was chosen for the whole part, and so is its radius.
                let clr = Length::from_mm(facts.limit);
                let all = subject.solved.bends.iter().filter(|bend| bend.is_bent()).count() > 1;
                let set = if all { Remedy::SetEveryClr { clr } } else { set_clr(subject, index, *die, clr) };
                Some(Cures::from(set).and(leave_to_shop(subject, index)))
            }
            Self::NoClamp(..) => None,
            Self::Several(_) => usual_radius(subject).map(|clr| Remedy::SetEveryClr { clr }.into()),
        }
    }
}
