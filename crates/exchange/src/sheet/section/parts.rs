//! The tubes of a system: parts list and cut list in one.

use elbowroom_bending::setup::UNSURE_MARK;
use elbowroom_bending::text::capital;

use crate::sheet::layout::{Breadth, Cell, Section, Table};
use crate::sheet::work::Work;

/// The tubes in their order, with the sheet on which each begins.
pub fn section(works: &[Work], sheets: &[usize], width: f64) -> Section {
    let row = |(index, (work, sheet)): (usize, (&Work, &usize))| {
        let bends = work.solved.bends.iter().filter(|bend| bend.is_bent()).count();
        let unsure = work.solved.blank_basis().is_some_and(elbowroom_bending::forming::ground::Ground::unsure);
        let mark = if unsure { UNSURE_MARK } else { "" };
        let mass = work.solved.mass.map_or_else(String::new, |mass| format!("{:.2}", mass.blank_kg));
        let verdict = work.verdict().severity.map_or_else(|| "nothing found".to_owned(), |worst| capital(worst.word()));
        vec![
            Cell::Figure((index + 1).to_string()),
            Cell::Words(work.name().to_owned()),
            Cell::Words(work.tube()),
            Cell::Figure(bends.to_string()),
            Cell::Figure(format!("{mark}{}", work.length(work.solved.blank_length_mm))),
            Cell::Figure(mass),
            Cell::Words(verdict),
            Cell::Figure(sheet.to_string()),
        ]
    };
    let table = Table {
        head: ["No.", "Tube", "Size and material", "Bends", "Cut blank to", "Blank, kg", "Worst finding", "Sheet"]
            .map(str::to_owned)
            .to_vec(),
        rows: works.iter().zip(sheets).enumerate().map(row).collect(),
    };
    let mut section = Section::new("Parts list and cut list", Breadth::Full);
    let (head, pieces) = table.pieces(width);
    (section.head, section.pieces) = (Some(head), pieces);
    section
}
