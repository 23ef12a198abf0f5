//! Which of the shop's tooling makes this part: every die set and clamp, from either end, best first.

use std::cmp::Ordering;

use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;

use crate::forming::ground::Ground;
use crate::judge::solve;
use crate::{Edit, End, Finding, Part, Severity, Shop, Solved, Verdict};

/// One way to tool the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Tooling {
    /// The die set, by name.
    pub die: String,
    /// Its clamp, by length.
    pub clamp: Length,
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
    /// One row for each die set that takes the tube, with each clamp, from each end; best first.
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
                let edit = taking(&die.name, clamp.length, from, changed_clr, part.units);
                let Ok(tried) = edit.applied_to(part) else { continue };
                rows.push(tooling(solve(&tried, shop), &die.name, clamp.length, from, changed_clr, edit));
            }
        }
    }
    rows.sort_by(Tooling::order);
    let only_compound_cut = !rows.is_empty() && rows.iter().all(|row| row.short_straight);
    Comparison { rows, other_diameters, only_compound_cut }
}

/// The edit that takes a tooling.
fn taking(die: &str, clamp: Length, from: End, changed_clr: Option<Length>, unit: LengthUnit) -> Edit {
    let mut edits = vec![Edit::ChooseDie(Some(die.to_owned())), Edit::ChooseClamp(Some(clamp))];
    edits.extend(changed_clr.map(Edit::SetEveryClr));
    edits.push(Edit::BendFrom(from));
    let end = match from {
        End::Start => "start",
        End::Finish => "finish",
    };
    Edit::Together(format!("take die set {die} with the {} clamp, bent from the {end}", unit.shown(clamp.mm())), edits)
}

fn tooling(solved: Solved, die: &str, clamp: Length, from: End, changed_clr: Option<Length>, edit: Edit) -> Tooling {
    let worst = solved.findings.first().cloned();
    let [lead_trim_mm, tail_trim_mm] = solved.trims_in_order_mm();
    let count = |severity| solved.findings.iter().filter(|finding| finding.severity == severity).count();
    Tooling {
        die: die.to_owned(),
        clamp,
        from,
        changed_clr,
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
        verdict: solved.verdict,
        edit,
    }
}

impl Tooling {
    /// Best first: what keeps the drawn radius, fewest stops, fewest cautions, least stock, longest clamp.
    /// A tooling that changes the radius still comes before one that cannot make the part.
    fn order(&self, other: &Self) -> Ordering {
        let [stops, cautions, _] = self.counts;
        let [other_stops, other_cautions, _] = other.counts;
        let trims = |row: &Self| row.lead_trim_mm + row.tail_trim_mm;
        (stops > 0)
            .cmp(&(other_stops > 0))
            .then(self.changed_clr.is_some().cmp(&other.changed_clr.is_some()))
            .then(stops.cmp(&other_stops))
            .then(cautions.cmp(&other_cautions))
            .then(trims(self).total_cmp(&trims(other)))
            .then(other.clamp.mm().total_cmp(&self.clamp.mm()))
            .then(self.die.cmp(&other.die))
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
        assert_eq!(comparison.rows[0].die, "50.8 at 1.5D");
        assert_eq!(comparison.rows[0].clamp, Length::from_mm(125.0));
        assert!(!comparison.only_compound_cut);
    }

    #[test]
    fn a_row_is_what_taking_it_gives() {
        let shop = specimen::shop();
        let part = part(&[(90.0, 0.0, 90.0), (60.0, 40.0, 60.0), (140.0, 90.0, 20.0)], 80.0);
        for row in compare(&part, &shop).rows {
            let taken = solve(&row.edit.applied_to(&part).unwrap(), &shop);
            assert_eq!(taken.verdict.severity, row.verdict.severity);
            assert_eq!(taken.verdict.text, row.verdict.text);
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
            rows.iter().find(|row| row.from == from && row.clamp.mm() == 125.0 && row.changed_clr.is_none()).unwrap()
        };
        assert!(of(End::Finish).verdict.severity <= of(End::Start).verdict.severity);
        assert!(of(End::Finish).worst != of(End::Start).worst);
    }

    #[test]
    fn the_worst_bend_is_named_as_drawn() {
        // Bend 2 is beyond the machine, whichever end leads.
        let rows = [(300.0, 0.0, 20.0), (300.0, 40.0, 195.0), (200.0, 180.0, 40.0), (200.0, 0.0, 20.0)];
        let part = part(&rows, 200.0);
        for row in compare(&part, &specimen::shop()).rows.iter().filter(|row| row.clamp.mm() == 125.0) {
            assert_eq!(row.worst.as_ref().unwrap().fault, "angle-beyond-machine");
            assert_eq!(row.worst_bend, Some(1), "{:?}", row.from);
        }
    }

    #[test]
    fn hopeless_straights_name_the_last_resort() {
        let part = part(&[(300.0, 0.0, 90.0), (3.0, 90.0, 90.0)], 400.0);
        assert!(compare(&part, &specimen::shop()).only_compound_cut);
    }
}
