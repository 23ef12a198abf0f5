//! `no-die-for-radius`: no die set bends this tube at this radius, or the part wants more than one.

use elbowroom_geometry::Length;

use super::cures::die_radii;
use super::words::with_cures;
use super::{About, Check, Subject};
use crate::{Cure, DieSet, Edit, Finding, Severity, Unit};

/// The check.
pub(super) const CHECK: Check = Check {
    fault: "no-die-for-radius",
    summary: "No die set bends this tube at this radius, or the part has more than one radius.",
    manual: MANUAL,
    about: About::Rest,
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

fn run(subject: &Subject, findings: &mut Vec<Finding>) {
    let chosen = subject.part.tooling.die.as_deref();
    if let Some(name) = chosen.filter(|name| subject.shop.die_named(name).is_none()) {
        findings.extend(unknown(subject, name));
    } else {
        for (index, made) in subject.solved.bends.iter().enumerate() {
            if !made.is_bent() || subject.is_fold_back(index) {
                continue;
            }
            match subject.die_of(made) {
                None => findings.push(none(subject, index)),
                Some(die) if !die.fits(subject.part.tube.od, Length::from_mm(made.clr_mm)) => {
                    findings.push(unfit(subject, index, die));
                }
                Some(die) if made.clamp.is_none() => findings.push(no_clamp(subject, index, die)),
                Some(_) => {}
            }
        }
    }
    findings.extend(several_radii(subject));
}

/// A stop at a bend, measured by its radius against that of a die (0 where there is none to compare).
fn stop(subject: &Subject, index: usize, limit_mm: f64, what: String, verdict: String, cures: Vec<Cure>) -> Finding {
    Finding {
        fault: CHECK.fault,
        severity: Severity::Stop,
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: subject.solved.bends[index].clr_mm,
        limit: limit_mm,
        unit: Unit::Millimetre,
        measured_basis: None,
        limit_basis: None,
        text: with_cures(format_args!("{what}"), &cures),
        verdict: format!("Cannot be bent as drawn: {verdict}."),
        cures,
    }
}

/// The cure of leaving the choice to the shop, where it has a die set for the bend.
fn leave_to_shop(subject: &Subject, index: usize) -> Option<Cure> {
    let clr = Length::from_mm(subject.solved.bends[index].clr_mm);
    let fits = subject.shop.die_for(subject.part.tube.od, clr)?;
    Some(Cure {
        label: format!("Take the die set that fits ({})", fits.name),
        edit: Edit::ChooseDie(None),
        risk: "Every bend then takes the die set that fits it.".into(),
    })
}

fn unknown(subject: &Subject, name: &str) -> Option<Finding> {
    let index = subject.solved.in_order().next()?;
    let names: Vec<&str> = subject.shop.die_sets.iter().map(|die| die.name.as_str()).collect();
    let has = if names.is_empty() { "it has none".into() } else { format!("it has {}", names.join(", ")) };
    let what = format!("The shop has no die set called \u{201c}{name}\u{201d}; {has}.");
    let verdict = format!("the shop has no die set called \u{201c}{name}\u{201d}");
    Some(stop(subject, index, 0.0, what, verdict, leave_to_shop(subject, index).into_iter().collect()))
}

fn none(subject: &Subject, index: usize) -> Finding {
    let (od, clr) = (subject.length(subject.part.tube.od.mm()), subject.length(subject.solved.bends[index].clr_mm));
    let cures = die_radii(subject, index);
    let nearest_mm = cures.first().map_or(0.0, |cure| match cure.edit {
        Edit::SetClr(_, clr) => clr.mm(),
        _ => 0.0,
    });
    let there_is = if cures.is_empty() { format!(" It has none for {od} tube at all.") } else { String::new() };
    let what = format!("Bend {}: the shop has no die set for {od} tube at CLR {clr}.{there_is}", subject.number(index));
    let verdict = format!("the shop has no die for {} at CLR {clr}", subject.bend(index));
    stop(subject, index, nearest_mm, what, verdict, cures)
}

fn unfit(subject: &Subject, index: usize, die: &DieSet) -> Finding {
    let od = subject.part.tube.od;
    let this = subject.number(index);
    if !die.takes(od) {
        let what = format!(
            "Bend {this}: die set {} is for {} tube, not {}.",
            die.name,
            subject.length(die.od.mm()),
            subject.length(od.mm())
        );
        let verdict = format!("die set {} is not for {} tube", die.name, subject.length(od.mm()));
        let mut finding =
            stop(subject, index, die.od.mm(), what, verdict, leave_to_shop(subject, index).into_iter().collect());
        finding.measured = od.mm();
        return finding;
    }
    let clr = subject.length(subject.solved.bends[index].clr_mm);
    let mut cures = vec![super::cures::set_clr(subject, index, die)];
    cures.extend(leave_to_shop(subject, index));
    let what = format!("Bend {this}: die set {} bends CLR {}, not {clr}.", die.name, subject.length(die.clr.mm()));
    let verdict = format!("die set {} does not bend CLR {clr}", die.name);
    stop(subject, index, die.clr.mm(), what, verdict, cures)
}

fn no_clamp(subject: &Subject, index: usize, die: &DieSet) -> Finding {
    let what = format!("Bend {}: die set {} has no clamp in the shop file.", subject.number(index), die.name);
    let verdict = format!("die set {} has no clamp", die.name);
    stop(subject, index, die.clr.mm(), what, verdict, Vec::new())
}

/// How many radii are named before the rest is only counted.
const NAMED_RADII: usize = 4;

fn several_radii(subject: &Subject) -> Option<Finding> {
    let bends = &subject.solved.bends;
    let is_counted = |index: usize| bends[index].is_bent() && !subject.is_fold_back(index);
    let mut in_order = subject.solved.in_order().filter(|&index| is_counted(index));
    let first_mm = bends[in_order.next()?].clr_mm;
    let same_mm = DieSet::SAME_SIZE.mm();
    let other = in_order.find(|&index| (bends[index].clr_mm - first_mm).abs() > same_mm)?;
    let mut radii: Vec<f64> =
        (0..bends.len()).filter(|&index| is_counted(index)).map(|index| bends[index].clr_mm).collect();
    radii.sort_by(f64::total_cmp);
    let mut kinds: Vec<(f64, usize)> = Vec::new();
    for radius_mm in radii {
        match kinds.last_mut() {
            Some((same, count)) if radius_mm - *same <= same_mm => *count += 1,
            _ => kinds.push((radius_mm, 1)),
        }
    }
    let mut named: Vec<String> =
        kinds.iter().take(NAMED_RADII).map(|(radius_mm, _)| subject.length(*radius_mm).to_string()).collect();
    if kinds.len() > NAMED_RADII {
        named.push(format!("{} more", kinds.len() - NAMED_RADII));
    }
    let usual = kinds
        .iter()
        .filter(|(radius_mm, _)| subject.shop.die_for(subject.part.tube.od, Length::from_mm(*radius_mm)).is_some())
        .max_by_key(|(_, count)| *count);
    let cures: Vec<Cure> = usual
        .map(|(radius_mm, _)| Cure {
            label: format!("Bend everything at CLR {}", subject.length(*radius_mm)),
            edit: Edit::SetEveryClr(Length::from_mm(*radius_mm)),
            risk: "Straights or positions change with the radii.".into(),
        })
        .into_iter()
        .collect();
    Some(Finding {
        fault: CHECK.fault,
        severity: Severity::Caution,
        place: subject.arc_place(other),
        also: Vec::new(),
        measured: kinds.len() as f64,
        limit: 1.0,
        unit: Unit::Count,
        measured_basis: None,
        limit_basis: None,
        text: with_cures(
            format_args!(
                "The part has {} radii ({}): stacked tooling, or a change-over between bends.",
                kinds.len(),
                named.join(", ")
            ),
            &cures,
        ),
        verdict: format!("Bends, but with a change of tooling: the part has {} radii.", kinds.len()),
        cures,
    })
}
