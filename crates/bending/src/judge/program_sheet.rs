//! The sheet of a program as a plain value: every word and figure on it, in the part's unit. Screen and paper
//! show this one, so that they say the same.

use elbowroom_geometry::units::Shown;
use elbowroom_geometry::{Angle, Length};

use super::at_machine::{self, CLOCK_SENSE, Watch, on_dial};
use crate::forming::ground::Ground;
use crate::forming::springback::SpringbackBasis;
use crate::plan::Plan;
use crate::program::{Correction, ROTATION_SENSE, Step};
use crate::setup::{Caution, DOUBT_ADVICE, Setup, SetupItem, TRIAL_ADVICE, UNSURE_MARK, WALL_ADVICE};
use crate::{End, Hand, Machine, Severity, Shop, Told, Verdict, Words};

/// A line of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetLine {
    /// What it is about.
    pub name: String,
    /// What there is to say, figures with their unit.
    pub value: String,
    /// Where it comes from; empty where it follows from the drawing.
    pub source: String,
    /// Whether it must look unsure.
    pub unsure: bool,
}

/// A step, its figures without units: lengths in the part's, angles in degrees. Unsure ones begin with
/// [`UNSURE_MARK`].
#[derive(Clone, Debug, PartialEq)]
pub struct SheetStep {
    /// The step, counted from 1.
    pub number: usize,
    /// The bend as drawn, counted from 0.
    pub bend: Option<usize>,
    /// Carriage feed.
    pub feed: String,
    /// Rotation, its sign always shown.
    pub rotation: String,
    /// What the dial of the chuck reads then, from 0 to 360, where it read 0 at step 1.
    pub dial: String,
    /// Angle to set.
    pub set: String,
    /// Angle that is left.
    pub free: String,
    /// Radius of the die.
    pub die_clr: String,
    /// Radius that is left.
    pub free_clr: String,
    /// Blank that the bend takes up.
    pub take_up: String,
    /// Where the bend starts along the blank.
    pub mark: String,
    /// Length of the clamp.
    pub clamp: String,
    /// Where the clamp begins along the blank; it ends at the mark.
    pub clamp_from: String,
    /// The die set, by name.
    pub die: String,
    /// Whether its springback rests on theory.
    pub unsure: bool,
    /// What to watch: what changes on the machine, then what the checks find at its bend.
    pub watch: Vec<Watch>,
}

/// Everything on the sheet, in order.
#[derive(Clone, Debug, PartialEq)]
pub struct ProgramSheet {
    /// From which end, to which side, and the sense of rotations.
    pub head: Vec<SheetLine>,
    /// Blank, trims and what is left behind the last bend.
    pub blank: Vec<SheetLine>,
    /// How the blank is put into the machine, before the first step; none where nothing is bent.
    pub load: Vec<SheetLine>,
    /// Where the weld seam goes then, clockwise from straight up; `None` where there is none.
    pub seam_from_top: Option<Angle>,
    /// The steps; none where nothing is bent.
    pub steps: Vec<SheetStep>,
    /// What the figures of the steps are.
    pub explained: String,
    /// The springback of each die set.
    pub springback: Vec<SheetLine>,
    /// What to do about springback by theory.
    pub advice: Option<&'static str>,
    /// The verdict on the part as it is bent here.
    pub verdict: Verdict,
    /// What springback uses up, where it does: the program cannot be run then.
    pub used_up: Option<String>,
    /// What a correction asks of the machine beyond what it has: the program cannot be run then.
    pub beyond_machine: Vec<String>,
    /// What the checks find, for the drawing.
    pub findings: Vec<Told>,
    /// The setup list.
    pub setup: Vec<SetupItem>,
    /// What to be careful of.
    pub cautions: Vec<Caution>,
}

/// What is said where there are no steps.
pub const NOTHING_BENT: &str = "Nothing is bent: cut the blank and it is done.";

impl ProgramSheet {
    /// The sheet of a plan, made with a shop, with its setup list.
    pub fn of(plan: &Plan, shop: &Shop, setup: Setup) -> Self {
        let words = Words::new(&plan.part, shop, &plan.solved);
        let is_bent = !plan.program.steps.is_empty();
        Self {
            head: head(plan),
            blank: blank(plan),
            load: load(plan),
            seam_from_top: at_machine::seam_from_top(plan),
            steps: steps(plan, &words),
            explained: if is_bent { explained() } else { String::new() },
            springback: springback(plan),
            advice: plan.unsure_springback().map(|ground| match ground {
                Ground::DoubtfulTrials => DOUBT_ADVICE,
                Ground::OtherWall => WALL_ADVICE,
                _ => TRIAL_ADVICE,
            }),
            verdict: plan.solved.verdict(&words),
            used_up: used_up(plan),
            beyond_machine: beyond_machine(plan, &shop.machine),
            findings: plan.solved.told(&words),
            setup: setup.items,
            cautions: setup.cautions,
        }
    }

    /// What stops the program from being run, to be said before anything else.
    pub fn stops(&self) -> impl Iterator<Item = &str> {
        let verdict = (self.verdict.severity == Some(Severity::Stop)).then_some(self.verdict.text.as_str());
        let beyond = self.beyond_machine.iter().map(String::as_str);
        verdict.into_iter().chain(self.used_up.as_deref()).chain(beyond)
    }

    /// Whether anything on it must look unsure.
    pub fn unsure(&self) -> bool {
        let lines = self.blank.iter().chain(&self.springback).any(|line| line.unsure);
        lines
            || self.steps.iter().any(|step| step.unsure)
            || self.setup.iter().any(|item| item.unsure)
            || self.findings.iter().any(|finding| finding.text.contains(UNSURE_MARK))
    }
}

fn line(name: impl Into<String>, value: String) -> SheetLine {
    SheetLine { name: name.into(), value, source: String::new(), unsure: false }
}

fn head(plan: &Plan) -> Vec<SheetLine> {
    let (end, first) = match plan.from {
        End::Start => ("start", "first"),
        End::Finish => ("finish", "last"),
    };
    let side = match plan.hand {
        Hand::Right => "right",
        Hand::Left => "left",
    };
    let mut lines = vec![
        line("Bent from", format!("the {end} of the drawing, its {first} bend first")),
        line("Hand", format!("the machine bends to the {side}")),
        line("Rotation", format!("positive is {ROTATION_SENSE}")),
    ];
    lines.extend(plan.program.correction.as_ref().map(|correction| line("Corrected", corrected(correction))));
    lines
}

/// What is said of a correction.
fn corrected(correction: &Correction) -> String {
    let after = correction.after();
    if correction.put_aside {
        return format!("no: what the pieces up to {after} ask for is put aside, and these are the figures as planned");
    }
    let numbers: Vec<String> = correction.rests_on.iter().map(|piece| (piece + 1).to_string()).collect();
    let pieces = if numbers.len() == 1 { "piece" } else { "pieces" };
    let stood_by = correction.stood_by();
    format!(
        "corrected after piece {after}: what the machine strayed on {pieces} {} is taken out of the plan{}{stood_by}",
        numbers.join(", "),
        if stood_by.is_empty() { "" } else { "." }
    )
}

/// What a correction asks of the machine beyond what it has.
pub fn beyond_machine(plan: &Plan, machine: &Machine) -> Vec<String> {
    match plan.program.corrected_by() {
        Some(_) => plan.program.beyond_machine(machine, plan.part.units),
        None => Vec::new(),
    }
}

/// A length with its unit, and with the mark where it must look unsure.
fn shown(plan: &Plan, length: Length, unsure: bool) -> String {
    format!("{}{}", mark(unsure), plan.part.units.shown(length.mm()))
}

const fn mark(unsure: bool) -> &'static str {
    if unsure { UNSURE_MARK } else { "" }
}

fn blank(plan: &Plan) -> Vec<SheetLine> {
    let (program, theory) = (&plan.program, plan.unsure_springback().is_some());
    let unsure = |basis: Option<Ground>| basis.is_some_and(Ground::unsure);
    let [first, last] = plan.from.first_before(["start", "finish"]);
    let figure = |name: &str, length, unsure| SheetLine { unsure, ..line(name, shown(plan, length, unsure)) };
    vec![
        figure("Blank length", program.blank, unsure(plan.blank_basis())),
        figure(&format!("Trim at the {first}"), program.lead_trim, unsure(plan.trim_bases[0])),
        figure(&format!("Trim at the {last}"), program.tail_trim, unsure(plan.trim_bases[1])),
        figure("Left behind the last bend, without the trim", program.tail, theory),
    ]
}

/// How the blank is loaded.
fn load(plan: &Plan) -> Vec<SheetLine> {
    let Some(first) = plan.program.steps.first() else { return Vec::new() };
    let mut lines = vec![line("Ends", at_machine::loaded(plan.from))];
    lines.extend(at_machine::seam_from_top(plan).map(|from_top| {
        let value = format!(
            "at {}, {CLOCK_SENSE} ({} clockwise from the top)",
            at_machine::o_clock(from_top),
            Shown::new(shown_on_dial(from_top), 1, "°")
        );
        line("Seam", value)
    }));
    let [from, to] = at_machine::clamped(first);
    let unsure = plan.unsure_springback().is_some() && plan.program.corrected_by().is_none();
    let grips = format!("from {} to {} along the blank", shown(plan, from, unsure), shown(plan, to, unsure));
    lines.push(SheetLine { unsure, ..line("First clamp", grips) });
    lines
}

/// Degrees as a dial shows them to a tenth: never 360.0.
fn shown_on_dial(dial: Angle) -> f64 {
    on_dial((dial.degrees() * 10.0).round() / 10.0)
}

fn steps(plan: &Plan, words: &Words) -> Vec<SheetStep> {
    let program = &plan.program;
    let dials = at_machine::dials(&program.steps);
    let steps = program.steps.iter().zip(dials).enumerate();
    steps.map(|(index, (one, dial))| step(plan, (index, one), dial, words)).collect()
}

fn step(plan: &Plan, (index, step): (usize, &Step), dial: Angle, words: &Words) -> SheetStep {
    let unit = plan.part.units;
    let by_theory = plan.springback_of_step.get(index).is_some_and(|springback| springback.unsure());
    // What was measured is sure, and so is what lies along the blank before the first set angle that is not.
    let (unsure, mark_unsure) = match plan.program.corrected_by() {
        Some(correction) => {
            let is = |step: usize| correction.unsure.get(step).copied().unwrap_or(by_theory);
            (is(index), (0..index).any(is))
        }
        None => (by_theory, by_theory),
    };
    let corrected = plan.program.corrected_by().is_some();
    let bare = |length: Length| unit.bare(length.mm()).to_string();
    let marked = |length: Length, unsure| format!("{}{}", mark(unsure), unit.bare(length.mm()));
    let degrees = |degrees: f64| Shown::new(degrees, 1, "").to_string();
    let rotation = degrees(step.rotation.degrees());
    SheetStep {
        number: index + 1,
        bend: plan.drawn_bend(index),
        feed: marked(step.feed, by_theory && !corrected),
        // Always with its sign, so that nobody takes it for a size.
        rotation: if rotation.starts_with('-') || rotation == "0.0" { rotation } else { format!("+{rotation}") },
        dial: degrees(shown_on_dial(dial)),
        set: format!("{}{}", mark(unsure), degrees(step.set_angle.degrees())),
        free: degrees(step.free_angle.degrees()),
        die_clr: bare(step.forming.die_clr),
        free_clr: marked(step.free_clr, by_theory),
        take_up: marked(step.take_up, unsure),
        mark: marked(step.mark, mark_unsure),
        clamp: bare(step.forming.clamp),
        clamp_from: marked(at_machine::clamped(step)[0], mark_unsure),
        die: plan.die_of_step.get(index).cloned().unwrap_or_default(),
        unsure: unsure || by_theory,
        watch: at_machine::watched(plan, index, words),
    }
}

fn explained() -> String {
    format!(
        "Rotation is positive {ROTATION_SENSE}; the dial is the sum of the turns, from 0 at step 1. Feed is the carriage's travel before the bend; that of step 1 includes the \
         trim there. Mark is where the bend starts, measured along the blank from the end that is bent first, for a \
         machine fed by hand. The clamp grips the blank from where it begins to the mark. Bend is the number of the bend as drawn."
    )
}

/// One line a die set: the springback line and where it comes from.
fn springback(plan: &Plan) -> Vec<SheetLine> {
    let mut lines: Vec<SheetLine> = Vec::new();
    for (die, known) in plan.die_of_step.iter().zip(&plan.springback_of_step) {
        if lines.iter().any(|line| line.name == *die) {
            continue;
        }
        let from = match known.basis.word() {
            "theory" if known.material_unknown => "no figures for this material, so none is assumed",
            "theory" => "by theory",
            "trials" if known.basis == SpringbackBasis::OtherWall => "from trial bends of another wall",
            "trials" if known.unsure() => "from trial bends in doubt",
            "trials" => "from this shop's trial bends",
            _ => "as this shop has it",
        };
        let stretch = if known.stretch_measured {
            format!("takes {:.2} % less blank, measured", known.stretch * 100.0)
        } else {
            "stretch not measured, so the blank is a little long".into()
        };
        let refused = known
            .refused
            .as_ref()
            .map_or_else(String::new, |refused| format!("; the trial bends could not be used: {refused}"));
        let doubts = known.fit.iter().flat_map(|fit| &fit.warnings);
        let doubts: String = doubts.map(|doubt| format!(" {}", doubt.words())).collect();
        let stop = if doubts.is_empty() { "" } else { "." };
        lines.push(SheetLine {
            name: die.clone(),
            value: format!(
                "{:.2}° + {:.4} per degree set; {stretch}{refused}{stop}{doubts}",
                known.line.a().degrees(),
                known.line.b()
            ),
            source: match &known.yield_stress {
                Some((mpa, source)) => format!("{from}, from a yield stress of {mpa:.0} MPa ({source})"),
                None => from.into(),
            },
            unsure: known.unsure(),
        });
    }
    lines
}

/// What is to be said where springback uses up a straight.
pub fn used_up(plan: &Plan) -> Option<String> {
    let (step, missing) = plan.used_up()?;
    let unit = plan.part.units;
    let place = match plan.drawn_bend(step) {
        Some(bend) => format!("the straight before step {} (bend {})", step + 1, bend + 1),
        None => "the straight behind the last step".into(),
    };
    Some(format!(
        "Released bends open to a larger radius and use up {place}: {} are missing, so the program cannot be run; lengthen it.",
        unit.shown(unit.at_least_mm(missing.mm()).max(unit.at_least_mm(0.01)))
    ))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::plan::plan;
    use crate::specimen::{self, row};

    fn sheet(rows: Vec<elbowroom_geometry::BendRow>, from: End) -> ProgramSheet {
        let shop = specimen::shop();
        let plan = plan(&specimen::bent(&specimen::part(rows, 400.0).unwrap(), from, Hand::Left), &shop).unwrap();
        ProgramSheet::of(&plan, &shop, Setup::of(&plan, &shop))
    }

    #[test]
    fn one_line_a_die_set_says_where_its_springback_comes_from() {
        let rows = vec![row(300.0, 0.0, 90.0), specimen::row_at(300.0, 0.0, 45.0, 101.6), row(300.0, 9.0, 60.0)];
        let sheet = sheet(rows, End::Start);
        let dies: Vec<&str> = sheet.springback.iter().map(|line| line.name.as_str()).collect();
        assert_eq!(dies, ["50.8 at 1.5D", "50.8 at 2D"]);
        assert!(
            sheet
                .springback
                .iter()
                .all(|line| line.unsure && line.source.starts_with("by theory, from a yield stress of "))
        );
        assert!(sheet.advice.is_some() && sheet.unsure());
    }

    #[test]
    fn what_springback_uses_up_is_told() {
        let sheet = sheet(vec![row(300.0, 0.0, 90.0), row(0.0, 0.0, 90.0)], End::Finish);
        let told = sheet.used_up.unwrap();
        assert!(told.contains("the straight before step 2 (bend 1)"), "{told}");
    }

    #[test]
    fn a_straight_tube_has_a_blank_and_no_steps() {
        let sheet = sheet(vec![], End::Start);
        assert_eq!((sheet.steps.len(), sheet.springback.len(), sheet.explained.as_str()), (0, 0, ""));
        assert_eq!(sheet.blank[0].value, "400.0 mm");
    }
}
