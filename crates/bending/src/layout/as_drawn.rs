//! From the order of bending back to the drawing: a part that is bent from its finish is solved turned round.

use crate::checks::push_lower_first;
use crate::layout::formed::seam_bends;
use crate::layout::{Cut, Formed, SolvedBend};
use crate::seam::SeamLay;
use crate::{ClampOnTube, Cure, Edit, End, Finding, Part, Place, Solved};
use elbowroom_geometry::Centreline;

/// A bend of a part that is bent from an end, as the drawing counts it, from 0.
pub(crate) fn bend(index: usize, bends: usize, from: End) -> usize {
    match from {
        End::Start => index,
        End::Finish => bends.saturating_sub(index + 1),
    }
}

/// The solution of a part that is bent from its finish, in terms of its drawing. `turned` is the drawing turned round,
/// solved.
pub(crate) fn solved(turned: Solved, part: &Part) -> Solved {
    let findings = findings(&turned, End::Finish);
    let form = part.path.bend_form();
    let centreline = Centreline::of(&form.path);
    let length_mm = turned.developed_length_mm;
    let last = turned.bends.len();
    // The tube does not twist, and it is seen from the other side.
    let seam = turned.seam.as_ref().and_then(|seam| {
        let first = turned.bends.iter().rposition(SolvedBend::is_bent)?;
        Some(SeamLay::from_start(-*seam.at_bends.get(first)?, &seam_bends(part, form.path.rows())))
    });
    let drawn = |(index, bend): (usize, &SolvedBend)| SolvedBend {
        vertex: form.vertex_of_bend.get(index).copied(),
        rotation_rad: form.path.rows().get(index).map_or(0.0, |row| row.rotation.radians()),
        starts_at_mm: centreline.elements().get(2 * index + 1).map_or(0.0, |arc| arc.from_mm),
        clamp: bend.clamp.map(|clamp| ClampOnTube {
            bite_at_mm: length_mm - clamp.bite_at_mm,
            from_mm: length_mm - clamp.to_mm,
            to_mm: length_mm - clamp.from_mm,
            ..clamp
        }),
        formed: bend.formed.map(|formed| Formed {
            seam_at_rad: seam.as_ref().and_then(|seam| seam.at_bends.get(index)).map(|at| at.radians()),
            ..formed
        }),
        ..bend.clone()
    };
    debug_assert_eq!(form.path.rows().len(), last);
    let [tail_basis, lead_basis] = turned.trim_bases;
    Solved {
        from: End::Finish,
        bends: turned.bends.iter().rev().enumerate().map(drawn).collect(),
        straights_mm: turned.straights_mm.iter().rev().copied().collect(),
        lead_trim_mm: turned.tail_trim_mm,
        tail_trim_mm: turned.lead_trim_mm,
        trim_bases: [lead_basis, tail_basis],
        cut: turned.cut.map(|cut| Cut { lead_trim_mm: cut.tail_trim_mm, tail_trim_mm: cut.lead_trim_mm, ..cut }),
        seam,
        form,
        centreline,
        findings,
        ..turned
    }
}

impl Finding {
    /// A finding of a part bent from the end `from`, for the drawing: its place lies on the drawing, and its
    /// cures are edits of the drawing. The words name bends as drawn already. `solved` is the part in the order
    /// of bending.
    #[must_use]
    pub fn as_drawn(&self, solved: &Solved, from: End) -> Self {
        match from {
            End::Start => self.clone(),
            End::Finish => Self {
                place: place(&self.place, solved),
                also: self.also.iter().map(|one| place(one, solved)).collect(),
                cures: self.cures.iter().map(cure).collect(),
                ..self.clone()
            },
        }
    }
}

/// Every finding of a part bent from the end `from`, for the drawing, in their total order.
pub(crate) fn findings(solved: &Solved, from: End) -> Vec<Finding> {
    let mut findings: Vec<Finding> = solved.findings.iter().map(|finding| finding.as_drawn(solved, from)).collect();
    findings.sort_by(Finding::order);
    findings
}

fn place(place: &Place, solved: &Solved) -> Place {
    let (length_mm, bends) = (solved.developed_length_mm, solved.bends.len());
    Place {
        from_mm: length_mm - place.to_mm,
        to_mm: length_mm - place.from_mm,
        bend: place.bend.map(|index| bend(index, bends, End::Finish)),
        straight: place.straight.map(|index| bends.saturating_sub(index)),
    }
}

/// The drawing is turned round, cured, and turned back.
fn cure(cure: &Cure) -> Cure {
    let edits = vec![Edit::SwapEnds, cure.edit.clone(), Edit::SwapEnds];
    let mut label = String::with_capacity(cure.label.len());
    push_lower_first(&mut label, &cure.label);
    Cure { edit: Edit::Together(label, edits), ..cure.clone() }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::plan::plan;
    use crate::specimen::{self, row};
    use crate::{End, Hand, Severity, solve};
    use proptest::prelude::*;

    #[test]
    fn what_is_said_from_the_finish_names_the_drawing() {
        // Bends 1 to 4. From the finish the clamp of bend 2 lies on the 60 mm before bend 3.
        let rows = vec![row(300.0, 0.0, 45.0), row(300.0, 40.0, 60.0), row(60.0, 20.0, 90.0), row(300.0, 0.0, 30.0)];
        let part = specimen::part(rows, 400.0).unwrap();
        let shop = specimen::shop();
        let plan = plan(&part, &shop, End::Finish, Hand::Right).unwrap();
        let findings = plan.findings();
        let found = findings.iter().find(|finding| finding.fault == "straight-too-short").unwrap();
        assert_eq!((found.severity, found.place.bend, found.place.straight), (Severity::Stop, Some(1), Some(2)));
        assert!(found.text.starts_with("Bend 2: the straight between bends 2 and 3 is 60.0 mm"), "{}", found.text);
        assert!(found.verdict.ends_with("is needed between bends 2 and 3."), "{}", found.verdict);
        assert!(found.cures[0].risk.starts_with("Everything beyond bend 3 moves"), "{}", found.cures[0].risk);
        // The place is the straight of the drawing, and the cure lengthens just that.
        let drawn = solve(&part, &shop);
        assert!((found.place.to_mm - drawn.bends[2].starts_at_mm).abs() < 1e-9);
        assert!((found.place.from_mm - drawn.bends[1].ends_at_mm()).abs() < 1e-9);
        let cured = solve(&found.cures[0].edit.applied_to(&part).unwrap(), &shop);
        for (index, (now, was)) in cured.straights_mm.iter().zip(&drawn.straights_mm).enumerate() {
            assert_eq!((now - was).abs() > 1e-6, index == 2, "straight {}", index + 1);
        }
        assert!((found.cures[0].label.contains(&format!("{:.1}", cured.straights_mm[2]))), "{}", found.cures[0].label);
    }

    #[test]
    fn ends_are_named_by_the_drawing_too() {
        let part = specimen::part(vec![row(300.0, 0.0, 45.0), row(300.0, 0.0, 60.0)], 85.0).unwrap();
        let plan = plan(&part, &specimen::shop(), End::Finish, Hand::Right).unwrap();
        let findings = plan.findings();
        let lead = findings.iter().find(|finding| finding.fault == "lead-too-short-to-clamp").unwrap();
        assert!(lead.text.starts_with("Bend 2: the leg at the finish is 85.0 mm"), "{}", lead.text);
        assert!(lead.text.contains("cut off after bending 85.0 mm after bend 2"), "{}", lead.text);
        assert!(plan.solved.verdict.text.contains("at the lead end (the finish)"), "{}", plan.solved.verdict.text);
    }

    proptest! {
        #[test]
        fn the_bend_a_text_begins_with_is_the_one_it_marks(
            straights in proptest::collection::vec(-10.0..140.0f64, 5),
            rotations in proptest::collection::vec(-180.0..180.0f64, 5),
            angles in proptest::collection::vec(5.0..185.0f64, 5),
            tail in 0.0..400.0f64
        ) {
            let rows = (0..5).map(|index| row(straights[index], rotations[index], angles[index])).collect();
            let part = specimen::part(rows, tail).unwrap();
            for from in [End::Start, End::Finish] {
                let Ok(plan) = plan(&part, &specimen::shop(), from, Hand::Right) else { continue };
                for finding in plan.findings() {
                    let number = finding.text.strip_prefix("Bend ").and_then(|rest| rest.split([':', ' ']).next());
                    let Some(number) = number.and_then(|digits| digits.parse::<usize>().ok()) else { continue };
                    if finding.text.contains(" overlap ") {
                        continue;
                    }
                    prop_assert_eq!(Some(number - 1), finding.place.bend, "{}", finding.text);
                }
            }
        }
    }
}
