//! Which of the shop's tooling makes this part: every die set and clamp, from either end, best first.

use std::cmp::Ordering;

use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;

use super::solved::solve;
use crate::forming::ground::Ground;
use crate::model::nearly::is_bend;
use crate::{DieSet, Edit, End, Finding, Part, Severity, Shop, Verdict, Words};

/// One way to tool the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Tooling {
    /// The die set, by name; of a part of several radii that keeps them, one for each radius.
    pub dies: Vec<String>,
    /// The clamp, by length; `None` where the die sets have no length in common and each takes its longest.
    pub clamp: Option<Length>,
    /// The end that is bent first, as the part is drawn now.
    pub from: End,
    /// The radius every bend would have to take, where the die bends another one than is drawn.
    pub changed_clr: Option<Length>,
    /// The verdict on it.
    pub verdict: Verdict,
    /// The worst finding, its place on the drawing.
    pub worst: Option<Finding>,
    /// The bend it speaks of, counted from 0 as drawn.
    pub worst_bend: Option<usize>,
    /// How many findings there are at stop, caution and note.
    pub counts: [usize; 3],
    /// Whether a straight that is too short for the clamp stops it.
    pub short_straight: bool,
    /// Extra blank at the end that is bent first, mm.
    pub lead_trim_mm: f64,
    /// Extra blank at the other end, mm.
    pub tail_trim_mm: f64,
    /// What the two trims rest on.
    pub trim_bases: [Option<Ground>; 2],
    /// The edit that takes this tooling.
    pub edit: Edit,
}

/// Everything the shop could tool the part with.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// One row for each die set that takes the tube, with each clamp, from each end, and of a part of several radii that
    /// the shop has dies for such rows that keep them; best first.
    pub rows: Vec<Tooling>,
    /// Die sets that are made for tube of another diameter, by name.
    pub other_diameters: Vec<String>,
    /// Whether short straights stand in the way of every clamp from both ends, so that only a clamp and
    /// die cut to the curve would hold it.
    pub only_compound_cut: bool,
}

/// What to say where [`Comparison::only_compound_cut`] holds.
pub const COMPOUND_CUT_ADVICE: &str = "No clamp in the shop closes on straights this short, from either end. A clamp and die cut to \
     the curve of the neighbouring bend (compound-cut) could hold it, but they are made for one part and a one-off will rarely pay \
     for them: lengthen the straight, ease the bend before it, or make the part in two pieces.";

/// Compares the tooling of a shop on a part. Solves the part once for each row.
pub fn compare(part: &Part, shop: &Shop) -> Comparison {
    let mut rows = Vec::new();
    let mut other_diameters = Vec::new();
    for die in &shop.die_sets {
        if !die.takes(part.tube.od) {
            other_diameters.push(die.name.clone());
            continue;
        }
        let fits = part.path.bend_form().path.rows().iter().all(|row| die.fits(part.tube.od, row.clr));
        let changed_clr = (!fits).then_some(die.clr);
        for clamp in &die.clamps {
            for from in [End::Start, End::Finish] {
                let way = Way { dies: &[die], clamp: Some(clamp.length), from, changed_clr };
                rows.extend(way.tried(part, shop));
            }
        }
    }
    let dies = one_for_each_radius(part, shop);
    if dies.len() > 1 {
        for clamp in common_clamps(&dies) {
            for from in [End::Start, End::Finish] {
                rows.extend(Way { dies: &dies, clamp, from, changed_clr: None }.tried(part, shop));
            }
        }
    }
    rows.sort_by(Tooling::order);
    let only_compound_cut = !rows.is_empty() && rows.iter().all(|row| row.short_straight);
    Comparison { rows, other_diameters, only_compound_cut }
}

/// The die sets of the shop that bend the radii as drawn, each once in the order of the drawing; none where a radius has
/// no die.
fn one_for_each_radius<'a>(part: &Part, shop: &'a Shop) -> Vec<&'a DieSet> {
    let mut dies: Vec<&DieSet> = Vec::new();
    let form = part.path.bend_form();
    for row in form.path.rows().iter().filter(|row| is_bend(row)) {
        match shop.die_for(part.tube.od, row.clr) {
            Some(die) if dies.iter().any(|known| known.name == die.name) => {}
            Some(die) => dies.push(die),
            None => return Vec::new(),
        }
    }
    dies
}

/// The lengths of clamp that every one of these die sets has; `None` alone where there is no such length.
fn common_clamps(dies: &[&DieSet]) -> Vec<Option<Length>> {
    let has = |die: &&DieSet, length: Length| die.clamps.iter().any(|clamp| clamp.length == length);
    let lengths = dies.first().into_iter().flat_map(|die| &die.clamps).map(|clamp| clamp.length);
    let common: Vec<_> = lengths.filter(|length| dies.iter().all(|die| has(die, *length))).map(Some).collect();
    if common.is_empty() { vec![None] } else { common }
}

/// A way to tool the part, before it is tried.
struct Way<'a> {
    dies: &'a [&'a DieSet],
    clamp: Option<Length>,
    from: End,
    changed_clr: Option<Length>,
}

impl Way<'_> {
    /// The edit that takes it.
    fn taking(&self, unit: LengthUnit) -> Edit {
        let (die, named) = match self.dies {
            [one] => (Some(one.name.clone()), format!("die set {}", one.name)),
            several => (None, format!("die sets {}", named(several.iter().map(|die| die.name.as_str())))),
        };
        let mut edits = vec![Edit::ChooseDie(die), Edit::ChooseClamp(self.clamp)];
        edits.extend(self.changed_clr.map(Edit::SetEveryClr));
        edits.push(Edit::BendFrom(self.from));
        let clamp = self.clamp.map_or_else(
            || "with their longest clamps".to_owned(),
            |clamp| format!("with the {} clamp", unit.shown(clamp.mm())),
        );
        let end = match self.from {
            End::Start => "start",
            End::Finish => "finish",
        };
        Edit::Together(format!("take {named} {clamp}, bent from the {end}"), edits)
    }

    /// What comes of it; `None` where the part refuses it.
    fn tried(&self, part: &Part, shop: &Shop) -> Option<Tooling> {
        let edit = self.taking(part.units);
        let part = edit.applied_to(part).ok()?;
        let solved = solve(&part, shop);
        let worst = solved.findings.first().cloned();
        let [lead_trim_mm, tail_trim_mm] = solved.trims_in_order_mm();
        let count = |severity| solved.findings.iter().filter(|finding| finding.severity == severity).count();
        Some(Tooling {
            dies: self.dies.iter().map(|die| die.name.clone()).collect(),
            clamp: self.clamp,
            from: self.from,
            changed_clr: self.changed_clr,
            counts: [count(Severity::Stop), count(Severity::Caution), count(Severity::Note)],
            worst_bend: worst.as_ref().and_then(|finding| finding.place.bend),
            worst,
            short_straight: solved
                .findings
                .iter()
                .any(|finding| finding.severity == Severity::Stop && finding.lacks_straight()),
            lead_trim_mm,
            tail_trim_mm,
            trim_bases: solved.trim_bases_in_order(),
            verdict: solved.verdict(&Words::new(&part, shop, &solved)),
            edit,
        })
    }
}

/// Names in one phrase.
fn named<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names.collect::<Vec<_>>().join(" and ")
}

impl Tooling {
    /// The die set by its name, or the names of several.
    pub fn die(&self) -> String {
        named(self.dies.iter().map(String::as_str))
    }

    /// The clamp in words.
    pub fn clamp_text(&self, unit: LengthUnit) -> String {
        self.clamp.map_or_else(|| "longest".to_owned(), |clamp| unit.bare(clamp.mm()).to_string())
    }

    /// Best first: what keeps the drawn radius, fewest stops, fewest cautions, least stock, longest clamp.
    /// A tooling that changes the radius still comes before one that cannot make the part.
    fn order(&self, other: &Self) -> Ordering {
        let [stops, cautions, _] = self.counts;
        let [other_stops, other_cautions, _] = other.counts;
        let mm = |row: &Self| row.clamp.map_or(f64::INFINITY, Length::mm);
        let trims = |row: &Self| row.lead_trim_mm + row.tail_trim_mm;
        (stops > 0)
            .cmp(&(other_stops > 0))
            .then(self.changed_clr.is_some().cmp(&other.changed_clr.is_some()))
            .then(stops.cmp(&other_stops))
            .then(cautions.cmp(&other_cautions))
            .then(trims(self).total_cmp(&trims(other)))
            .then(mm(other).total_cmp(&mm(self)))
            .then(self.dies.cmp(&other.dies))
            .then((self.from == End::Finish).cmp(&(other.from == End::Finish)))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::solve;
    use crate::specimen::{self, row};

    fn part(rows: &[(f64, f64, f64)], tail_mm: f64) -> Part {
        specimen::part(
            rows.iter().map(|&(straight, rotation, angle)| row(straight, rotation, angle)).collect(),
            tail_mm,
        )
        .unwrap()
    }

    #[test]
    fn every_clamp_of_the_fitting_dies_from_both_ends() {
        let part = part(&[(300.0, 0.0, 90.0), (200.0, 40.0, 60.0)], 400.0);
        let comparison = compare(&part, &specimen::shop());
        assert_eq!(comparison.rows.len(), 2 * 3 * 2);
        assert_eq!(comparison.other_diameters, ["60.3 at 1.5D"]);
        assert_eq!(comparison.rows[0].die(), "50.8 at 1.5D");
        assert_eq!(comparison.rows[0].clamp, Some(Length::from_mm(125.0)));
        assert!(!comparison.only_compound_cut);
    }

    #[test]
    fn a_row_is_what_taking_it_gives() {
        let shop = specimen::shop();
        let part = part(&[(90.0, 0.0, 90.0), (60.0, 40.0, 60.0), (140.0, 90.0, 20.0)], 80.0);
        for row in compare(&part, &shop).rows {
            let taken = solve(&row.edit.applied_to(&part).unwrap(), &shop);
            assert_eq!(taken.verdict(&Words::new(&part, &shop, &taken)), row.verdict);
            assert_eq!(taken.trims_in_order_mm(), [row.lead_trim_mm, row.tail_trim_mm]);
            assert_eq!(taken.from, row.from);
        }
    }

    #[test]
    fn bending_from_the_other_end_can_clear() {
        // Bend 2 after a deep bend 1 on a short straight: from the far end the deep bend comes second, and
        // the shallow one lies under its clamp.
        let part = part(&[(300.0, 0.0, 90.0), (118.0, 0.0, 4.0)], 400.0);
        let rows = compare(&part, &specimen::shop()).rows;
        let of = |from| {
            rows.iter()
                .find(|row| row.from == from && row.clamp == Some(Length::from_mm(125.0)) && row.changed_clr.is_none())
                .unwrap()
        };
        assert!(of(End::Finish).verdict.severity <= of(End::Start).verdict.severity);
        assert!(of(End::Finish).worst != of(End::Start).worst);
    }

    #[test]
    fn the_worst_bend_is_named_as_drawn() {
        // Bend 2 is beyond the machine, whichever end leads.
        let rows = [(300.0, 0.0, 20.0), (300.0, 40.0, 195.0), (200.0, 180.0, 40.0), (200.0, 0.0, 20.0)];
        let part = part(&rows, 200.0);
        for row in compare(&part, &specimen::shop()).rows.iter().filter(|row| row.clamp == Some(Length::from_mm(125.0)))
        {
            assert_eq!(row.worst.as_ref().unwrap().fault, "angle-beyond-machine");
            assert_eq!(row.worst_bend, Some(1), "{:?}", row.from);
        }
    }

    fn of_two_radii() -> Part {
        let rows = vec![row(300.0, 0.0, 90.0), specimen::row_at(300.0, 40.0, 60.0, 101.6), row(300.0, 0.0, 45.0)];
        specimen::part(rows, 400.0).unwrap()
    }

    #[test]
    fn a_part_of_two_radii_has_rows_that_keep_the_drawing() {
        let (part, mut shop) = (of_two_radii(), specimen::shop());
        let rows = compare(&part, &shop).rows;
        let kept: Vec<&Tooling> = rows.iter().filter(|row| row.changed_clr.is_none()).collect();
        assert_eq!(kept.len(), 3 * 2, "each common clamp from each end");
        assert_eq!(rows[0].dies, ["50.8 at 1.5D", "50.8 at 2D"]);
        assert_eq!((rows[0].counts[0], rows[0].clamp), (0, Some(Length::from_mm(125.0))));
        for row in kept {
            let taken = row.edit.applied_to(&part).unwrap();
            assert_eq!(taken.path, part.path);
            let solved = solve(&taken, &shop);
            assert!(
                solved.bends.iter().all(|bend| bend.die.is_some())
                    && solved.verdict(&Words::new(&part, &shop, &solved)) == row.verdict
            );
        }
        // Without a length in common each die set takes its longest clamp.
        for (die, length) in [(0, 120.0), (1, 130.0)] {
            specimen::change_die(&mut shop, die, |die| die.clamps = vec![specimen::clamp(length, 180.0)]);
        }
        let rows = compare(&part, &shop).rows;
        let kept = rows.iter().find(|row| row.changed_clr.is_none()).unwrap();
        let lengths = |row: &Tooling| {
            let solved = solve(&row.edit.applied_to(&part).unwrap(), &shop);
            solved.bends.iter().map(|bend| bend.clamp.unwrap().length_mm).collect::<Vec<_>>()
        };
        assert_eq!((kept.clamp, lengths(kept)), (None, vec![120.0, 130.0, 120.0]));
        // A radius that no die has leaves no such row.
        specimen::change(&mut shop.die_sets, |dies| drop(dies.remove(1)));
        assert!(compare(&part, &shop).rows.iter().all(|row| row.changed_clr.is_some()));
    }

    #[test]
    fn a_clamp_that_the_shop_does_not_own_is_never_offered_and_never_green() {
        let shop = specimen::shop();
        let mut part = part(&[(300.0, 0.0, 90.0), (200.0, 40.0, 60.0)], 400.0);
        for length in [60.0, 100.0, 124.0, 140.0] {
            part.tooling.clamp = Some(specimen::clamp_of(length));
            let solved = solve(&part, &shop);
            assert!(solved.worst() >= Some(Severity::Caution), "{length}");
            let plan = crate::plan::plan(&part, &shop).unwrap();
            let setup = crate::setup::Setup::of(&plan, &shop);
            let sheet = crate::program_sheet::ProgramSheet::of(&plan, &shop, setup);
            assert!(sheet.verdict.severity >= Some(Severity::Caution), "{length}");
            assert!(sheet.findings.iter().any(|finding| finding.severity >= Severity::Caution), "{length}");
            for row in compare(&part, &shop).rows {
                let die = shop.die_named(&row.dies[0]).unwrap();
                assert!(die.clamps.iter().any(|clamp| Some(clamp.length) == row.clamp), "{length}: {:?}", row.clamp);
            }
        }
    }

    #[test]
    fn hopeless_straights_name_the_last_resort() {
        let part = part(&[(300.0, 0.0, 90.0), (3.0, 90.0, 90.0)], 400.0);
        assert!(compare(&part, &specimen::shop()).only_compound_cut);
    }
}
