//! The program as a table of plain cells, in full precision: what is written to CSV and to the clipboard.

use elbowroom_geometry::units::format_any;

use super::at_machine::{clamped, dials};
use crate::forming::ground::Ground;
use crate::forming::springback::SpringbackBasis;
use crate::plan::Plan;
use crate::program::ROTATION_SENSE;
use crate::text::harmless;

/// The columns, each with its unit.
pub const COLUMNS: [&str; 19] = [
    "step",
    "bend",
    "feed_mm",
    "rotation_deg",
    "set_angle_deg",
    "free_angle_deg",
    "die_clr_mm",
    "free_clr_mm",
    "take_up_mm",
    "mark_mm",
    "clamp_mm",
    "die",
    "springback_from",
    "rotation_positive",
    "springback_basis",
    "corrected_after",
    "dial_deg",
    "clamp_from_mm",
    "clamp_to_mm",
];

/// One row of cells a step. Numbers are written so that reading them gives the same number again.
pub fn rows(plan: &Plan) -> Vec<[String; COLUMNS.len()]> {
    let dials = dials(&plan.program.steps);
    let row = |(index, step): (usize, &crate::program::Step)| {
        let [clamp_from, clamp_to] = clamped(step);
        let bend = plan.drawn_bend(index).map_or_else(String::new, |bend| (bend + 1).to_string());
        [
            (index + 1).to_string(),
            bend,
            format_any(step.feed.mm()),
            format_any(step.rotation.degrees()),
            format_any(step.set_angle.degrees()),
            format_any(step.free_angle.degrees()),
            format_any(step.forming.die_clr.mm()),
            format_any(step.free_clr.mm()),
            format_any(step.take_up.mm()),
            format_any(step.mark.mm()),
            format_any(step.forming.clamp.mm()),
            no_formula(&plan.die_of_step[index]),
            step.forming.basis.word().to_owned(),
            ROTATION_SENSE.to_owned(),
            Ground::from(step.forming.basis).word().to_owned(),
            plan.program.corrected_after().to_string(),
            format_any(dials[index].degrees()),
            format_any(clamp_from.mm()),
            format_any(clamp_to.mm()),
        ]
    };
    plan.program.steps.iter().enumerate().map(row).collect()
}

/// A name as a cell: one that a spreadsheet would take for a formula gets an apostrophe before it, which says that
/// text follows.
fn no_formula(name: &str) -> String {
    let name = harmless(name);
    if name.trim_start().starts_with(['=', '+', '-', '@']) { format!("'{name}") } else { name.into_owned() }
}

impl SpringbackBasis {
    /// The word in JSON and CSV.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Theory => "theory",
            Self::Trials | Self::DoubtfulTrials | Self::OtherWall => "trials",
            Self::Shop => "shop",
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::plan::plan;
    use crate::{End, Hand, specimen};

    #[test]
    fn cells_read_back_to_the_same_numbers() {
        let part =
            specimen::part(vec![specimen::row(300.0, 0.0, 90.0), specimen::row(201.3, 33.3, 45.0)], 400.0).unwrap();
        let plan = plan(&specimen::bent(&part, End::Finish, Hand::Right), &specimen::shop()).unwrap();
        let rows = rows(&plan);
        for (row, step) in rows.iter().zip(&plan.program.steps) {
            assert_eq!(row[2].parse::<f64>().unwrap(), step.feed.mm());
            assert_eq!(row[4].parse::<f64>().unwrap(), step.set_angle.degrees());
        }
        assert_eq!((rows[0][0].as_str(), rows[0][1].as_str(), rows[0][12].as_str()), ("1", "2", "theory"));
    }
}
