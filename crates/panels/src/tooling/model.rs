//! The comparison as a plain value.

use std::fmt;

use elbowroom_bending::compare::{COMPOUND_CUT_ADVICE, Tooling, compare};
use elbowroom_bending::requirements::{AngleBefore, Requirement, Requirements, requirements};
use elbowroom_bending::{Edit, End, Part, Severity, Shop, Solved, SolvedBend};
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length, format_number};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::Workbench;

use crate::widgets::{UNSURE, figure_text};

/// So many bends, over all ways of tooling, are solved within the thirty milliseconds of a frame with room to
/// spare: a bend takes a few microseconds, and some tens on a slow machine.
const QUICK_BENDS: usize = 800;

/// One way to tool the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Die set and clamp.
    pub tooling: String,
    /// Which end is bent first, and what else it takes.
    pub how: String,
    /// How grave its worst finding is.
    pub severity: Option<Severity>,
    /// The verdict in a few words, with the worst finding.
    pub verdict: String,
    /// Whether it is what bends the part now, chosen or left to the shop.
    pub taken: bool,
    /// The edit that takes it.
    pub edit: Edit,
}

/// What one bend asks of the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    /// The bend, counted from 1.
    pub bend: usize,
    /// The straight there is and the ones that are needed.
    pub straight: String,
    /// How grave it is that the straight is too short.
    pub straight_wrong: Option<Severity>,
    /// How far the bend made before it may turn.
    pub before: String,
    /// The angle that the present grip has proved to hold.
    pub held: String,
    /// How grave it is that the bend's angle is more.
    pub held_wrong: Option<Severity>,
}

/// What the panel shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// Every tooling, best first.
    pub rows: Vec<Row>,
    /// Die sets for other tube.
    pub other_diameters: Vec<String>,
    /// Whether only a clamp and die cut to the curve would hold it.
    pub only_compound_cut: bool,
    /// The end that is bent first, where it is told what the drawing would have to be.
    pub from: End,
    /// What the needs speak of.
    pub chosen: String,
    /// What each bend asks for.
    pub needs: Vec<Need>,
    /// What is to be said beside them.
    pub told: Vec<String>,
}

/// How figures are written.
#[derive(Clone, Copy)]
struct Words(LengthUnit);

impl Words {
    fn length(self, length: Length) -> String {
        format_length(length, self.0, self.0.decimals())
    }

    fn bare(self, mm: f64) -> String {
        format_number(mm / self.0.in_mm(), self.0.decimals())
    }

    /// Rounded up in the last place that is shown, so that what is shown is enough.
    fn enough(self, mm: f64) -> String {
        self.bare(self.0.at_least_mm(mm))
    }
}

impl Model {
    /// Whether comparing is so quick that it can be done between two frames.
    pub fn is_quick(part: &Part, shop: &Shop) -> bool {
        let ways: usize =
            shop.die_sets.iter().filter(|die| die.takes(part.tube.od)).map(|die| 2 * die.clamps.len()).sum();
        let bends = match &part.path {
            elbowroom_bending::Path::Vertices(path) => path.points().len(),
            elbowroom_bending::Path::Bends(path) => path.rows().len(),
        };
        ways * bends <= QUICK_BENDS
    }

    /// Whether a figure must look unsure.
    pub fn unsure(&self) -> bool {
        let rows = self.rows.iter().any(|row| row.how.contains(UNSURE));
        rows || self
            .needs
            .iter()
            .any(|need| [&need.straight, &need.before, &need.held].iter().any(|text| text.contains(UNSURE)))
    }

    /// The comparison of a workbench, however long it takes.
    pub fn of(workbench: &Workbench) -> Self {
        Self::made(workbench.part(), workbench.shop(), workbench.solved())
    }

    /// The comparison of a solved part, and what its drawing would have to be.
    pub fn made(part: &Part, shop: &Shop, solved: &Solved) -> Self {
        let from = solved.from;
        let words = Words(part.units);
        let comparison = compare(part, shop);
        let required = requirements(part, shop, solved);
        Self {
            rows: comparison.rows.into_iter().map(|tooling| row(tooling, shop, solved, words)).collect(),
            other_diameters: comparison.other_diameters,
            only_compound_cut: comparison.only_compound_cut,
            from,
            chosen: format!("On the tooling that is chosen, in the order of bending; lengths in {}.", words.0.symbol()),
            needs: required.bends.iter().map(|requirement| need(requirement, from, words)).collect(),
            told: told(&required, words),
        }
    }
}

fn row(tooling: Tooling, shop: &Shop, solved: &Solved, words: Words) -> Row {
    let verdict = match &tooling.worst {
        None => "bends as drawn".to_owned(),
        Some(finding) => format!("{}: {}", finding.severity.word(), finding.called()),
    };
    let from = match tooling.from {
        End::Start => "from the start",
        End::Finish => "from the finish",
    };
    let mut how = from.to_owned();
    let ([lead_basis, tail_basis], [first, last]) =
        (tooling.trim_bases, tooling.from.first_before(["start", "finish"]));
    for (name, trim, basis) in [(first, tooling.lead_trim_mm, lead_basis), (last, tooling.tail_trim_mm, tail_basis)] {
        if trim > 0.05 {
            let trim = words.length(Length::from_mm(trim));
            let trim = basis.map_or(trim.clone(), |ground| figure_text(&trim, ground));
            how += &format!(", {trim} to cut off the {name}");
        }
    }
    if let Some(clr) = tooling.changed_clr {
        how += &format!(", every CLR to {}", words.length(clr));
    }
    let on_it = |bend: &SolvedBend| {
        let die = bend.die.and_then(|die| shop.die_sets.get(die));
        let clamp = bend.clamp.is_some_and(|clamp| {
            let longest = || die.and_then(|die| die.longest_clamp()).map(|clamp| clamp.length);
            tooling.clamp.or_else(longest).is_some_and(|length| clamp.length_mm == length.mm())
        });
        clamp && die.is_some_and(|die| tooling.dies.contains(&die.name))
    };
    let taken = tooling.from == solved.from
        && tooling.changed_clr.is_none()
        && solved.bends.iter().filter(|bend| bend.is_bent()).all(on_it);
    Row {
        tooling: tooling.clamp.map_or_else(
            || format!("{}, longest clamps", tooling.die()),
            |clamp| format!("{}, {} clamp", tooling.die(), words.length(clamp)),
        ),
        how,
        severity: tooling.verdict.severity,
        verdict,
        taken,
        edit: tooling.edit,
    }
}

fn need(requirement: &Requirement, from: End, words: Words) -> Need {
    let on_bites = |text: &str| figure_text(text, requirement.bite_basis.into());
    let turn = |limit: AngleBefore| match limit {
        AngleBefore::Any => "by any angle".to_owned(),
        // Downwards: what is shown must pass.
        AngleBefore::UpTo(angle) => {
            let down = Angle::from_degrees((angle.degrees() * 10.0).floor() / 10.0);
            format!("up to {}", on_bites(&format_angle(down, 1)))
        }
        AngleBefore::Never => "not at all".to_owned(),
    };
    let here = words.bare(requirement.straight_mm);
    let (straight, before) = if let Some(before) = requirement.before {
        let closes = on_bites(&words.enough(requirement.closes_from_mm));
        let free = on_bites(&words.enough(requirement.mark_free_from_mm));
        let straight = format!(
            "Straight from bend {}: {here}; the clamp closes from {closes} on, without a mark from {free} on.",
            before + 1
        );
        let (closes, free) = (turn(requirement.before_closes), turn(requirement.before_mark_free));
        let turns = if closes == free { closes } else { format!("{closes}, and {free} without a mark") };
        (straight, format!("On this straight bend {} may turn {turns}.", before + 1))
    } else {
        let clamp = words.bare(requirement.clamp_mm);
        let leg = match from {
            End::Start => "Leg at the start",
            End::Finish => "Leg at the finish",
        };
        (
            if requirement.straight_mm < requirement.clamp_mm {
                format!("{leg}: {here}, clamp {clamp}; what is missing is put on the blank.")
            } else {
                format!("{leg}: {here}; the clamp of {clamp} fits on it.")
            },
            "No bend is made before it.".to_owned(),
        )
    };
    let severity =
        if requirement.too_short() { Some(Severity::Stop) } else { requirement.marked().then_some(Severity::Caution) };
    Need {
        bend: requirement.bend + 1,
        straight,
        straight_wrong: severity,
        before,
        held: format!(
            "Angle {}: its grip has proved to hold {}; die and machine bend to {}.",
            format_angle(requirement.angle, 1),
            figure_text(&format_angle(requirement.held, 1), requirement.held_basis.into()),
            figure_text(&format_angle(requirement.largest, 1), requirement.largest_basis.into())
        ),
        held_wrong: requirement.slips().then_some(Severity::Caution),
    }
}

fn told(required: &Requirements, words: Words) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    match required.without_die[..] {
        [] => {}
        [one] => told.push(format!("Bend {} has no die set for its radius.", one + 1)),
        [first, ..] => {
            told.push(format!(
                "{} bends have no die set for their radius, bend {} first.",
                required.without_die.len(),
                first + 1
            ));
        }
    }
    let radii: Vec<String> = required.radii.iter().map(|radius| words.length(radius.clr)).collect();
    told.push(if radii.is_empty() {
        "The shop has no die for this outside diameter.".into()
    } else {
        format!("CLR that the shop has dies for: {}.", radii.join(", "))
    });
    told
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for row in &self.rows {
            let taken = if row.taken { " (in use)" } else { "" };
            writeln!(out, "{}, {}{taken}: {}", row.tooling, row.how, row.verdict)?;
        }
        if self.only_compound_cut {
            writeln!(out, "{COMPOUND_CUT_ADVICE}")?;
        }
        for name in &self.other_diameters {
            writeln!(out, "for other tube: {name}")?;
        }
        writeln!(out, "bent first: {}", if self.from == End::Start { "start" } else { "finish" })?;
        writeln!(out, "{}", self.chosen)?;
        for text in &self.told {
            writeln!(out, "{text}")?;
        }
        for need in &self.needs {
            writeln!(out, "bend {}: {} {} {}", need.bend, need.straight, need.before, need.held)?;
        }
        Ok(())
    }
}
