//! What the checks find, each with its number, its severity in a word, and what would cure it.

use elbowroom_bending::text::capital;

use crate::sheet::layout::{Breadth, Section, hanging};
use crate::sheet::work::Work;

/// The section.
pub fn section(work: &Work, width: f64) -> Section {
    let unit = work.part.units;
    let mut lines: Vec<(String, String)> = Vec::new();
    if let Ok(planned) = &work.planned {
        let stops = planned.sheet.used_up.iter().chain(&planned.sheet.beyond_machine);
        lines.extend(stops.map(|words| ("Stop".to_owned(), words.clone())));
    }
    for (index, told) in work.findings().iter().enumerate() {
        let places: Vec<String> =
            told.places().map(|place| format!("{} to {}", unit.bare(place.from_mm), unit.shown(place.to_mm))).collect();
        lines.push((
            format!("{}. {}", index + 1, capital(told.severity.word())),
            format!("{} ({}; {} along the tube)", told.text, told.title, places.join(" and ")),
        ));
        for cure in &told.cures {
            let risk = if cure.risk.is_empty() { String::new() } else { format!(" ({})", cure.risk) };
            lines.push((String::new(), format!("Cure: {}{risk}", cure.label)));
        }
    }
    if lines.is_empty() {
        lines.push((String::new(), "None.".into()));
    }
    let mut section = Section::new("Findings", Breadth::Half);
    section.pieces = hanging(&lines, 20.0, width);
    section
}
