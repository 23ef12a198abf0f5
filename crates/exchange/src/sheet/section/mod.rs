//! What stands on a sheet, a section a file.

mod code;
mod facts;
mod findings;
mod loading;
mod parts;
mod points;
mod program;

use super::ink::Paper;
use super::layout::{Breadth, Section, width};
use super::work::Work;

pub use code::{HEAD as CODE_HEAD, texts as code_texts};
pub use parts::section as parts;

/// Every section of a tube, in the order in which a person needs them. `in_full` is what had no room in the title.
pub fn all(work: &Work, paper: Paper, in_full: &[(String, String)]) -> Vec<Section> {
    let (full, half) = (width(paper, Breadth::Full), width(paper, Breadth::Half));
    let floats = |section: Section| Section { floats: true, ..section };
    let sections = [
        Some(program::section(work, full)),
        program::notes(work, half),
        facts::blank(work, half),
        loading::section(work, half),
        facts::setup(work, half),
        facts::springback(work, half),
        Some(findings::section(work, half)),
        Some(points::vertices(work, half)),
        facts::tolerances(work, half).map(floats),
        Some(points::inspection(work, half)),
        Some(floats(points::overall(work, half))),
        Some(floats(code::section(work, half))),
        Some(floats(facts::cautions(work, half))),
        facts::notes(work, in_full, half).map(floats),
    ];
    sections.into_iter().flatten().collect()
}
