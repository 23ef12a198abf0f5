//! Blank, springback, setup, tolerances, cautions and notes: paragraphs under hanging heads.

use elbowroom_bending::first_off::ToleranceChoice;
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::setup::{UNSURE_LEGEND, UNSURE_MARK};
use elbowroom_geometry::units::format_angle;

use crate::sheet::layout::{Breadth, Section, hanging, paragraphs};
use crate::sheet::work::Work;

/// How wide the hanging heads are, mm.
const HEADS: f64 = 32.0;

fn under(title: &str, lines: &[(String, String)], width: f64) -> Option<Section> {
    let mut section = Section::new(title, Breadth::Half);
    section.pieces = hanging(lines, HEADS, width);
    (!lines.is_empty()).then_some(section)
}

const fn mark(unsure: bool) -> &'static str {
    if unsure { UNSURE_MARK } else { "" }
}

/// Blank and stock.
pub fn blank(work: &Work, width: f64) -> Option<Section> {
    let mut lines = vec![("Tube".to_owned(), work.tube())];
    match &work.planned {
        Ok(planned) => {
            lines.extend(planned.sheet.blank.iter().map(|line| (line.name.clone(), line.value.clone())));
        }
        Err(_) => {
            // Without a die set nobody knows the springback.
            lines.push(("Blank as drawn".into(), work.length(work.solved.blank_length_mm)));
        }
    }
    lines.push(("Length as drawn".into(), work.length(work.solved.developed_length_mm)));
    if let Some(mass) = work.solved.mass {
        let unsure = mark(Ground::from(mass.certainty).unsure());
        lines.push((
            "Mass".into(),
            format!("{unsure}{:.2} kg, of the blank {unsure}{:.2} kg", mass.part_kg, mass.blank_kg),
        ));
    }
    under("Blank and stock", &lines, width)
}

/// What is known of springback, die set by die set.
pub fn springback(work: &Work, width: f64) -> Option<Section> {
    let planned = work.planned.as_ref().ok()?;
    let mut lines: Vec<(String, String)> = Vec::new();
    for line in &planned.sheet.springback {
        lines.push((format!("{}{}", mark(line.unsure), line.name), format!("{} ({})", line.value, line.source)));
    }
    lines.extend(planned.sheet.advice.map(|advice| (String::new(), advice.to_owned())));
    under("Springback", &lines, width)
}

/// Tooling and setup list.
pub fn setup(work: &Work, width: f64) -> Option<Section> {
    let planned = work.planned.as_ref().ok()?;
    let line = |item: &elbowroom_bending::setup::SetupItem| {
        (format!("{}{}", mark(item.unsure), item.what), format!("{} ({})", item.value, item.source))
    };
    let lines: Vec<(String, String)> = planned.sheet.setup.iter().map(line).collect();
    under("Tooling and setup", &lines, width)
}

/// How far the part may stray.
pub fn tolerances(work: &Work, width: f64) -> Option<Section> {
    let own: ToleranceChoice = work.part.tooling.tolerance;
    let (angle, length) = (own.angle().is_some(), own.length().is_some());
    let of_part = "chosen for this part";
    let usual = "usual for this outside diameter and number of bends, a fabricator's published design procedure";
    let lines = [
        (
            "Angles, rotations".to_owned(),
            format!("± {} ({})", format_angle(work.tolerance.angle, 1), if angle { of_part } else { usual }),
        ),
        (
            format!("{}Straights, points", mark(!length)),
            format!(
                "{}± {} ({})",
                mark(!length),
                work.length(work.tolerance.length.mm()),
                if length { of_part } else { "common practice, no source" }
            ),
        ),
    ];
    under("Tolerances", &lines, width)
}

/// What to be careful of.
pub fn cautions(work: &Work, width: f64) -> Section {
    let mut section = Section::new("Cautions", Breadth::Half);
    let texts: Vec<String> = match &work.planned {
        Ok(planned) => {
            planned.sheet.cautions.iter().map(|caution| format!("{} ({})", caution.text, caution.source)).collect()
        }
        Err(_) => vec![
            "These figures are estimates until a trial bend confirms them. A bender is a power press with a swinging arm: nobody \
             stands inside the swing, and the machine's own rules and local law come first."
                .into(),
        ],
    };
    section.pieces = paragraphs(&texts, width);
    section
}

/// Which figures are unproved, where the shop comes from, and what had no room elsewhere.
pub fn notes(work: &Work, in_full: &[(String, String)], width: f64) -> Option<Section> {
    let mut lines = vec![("Unproved".to_owned(), UNSURE_LEGEND.to_owned())];
    let from = if work.shop_from.is_empty() { String::new() } else { format!(" ({})", work.shop_from) };
    lines.push(("Shop".into(), format!("{}{from}", work.shop.name)));
    lines.push(("Machine".into(), work.shop.machine.name.clone()));
    lines.push(("Note".into(), work.part.note.clone()));
    lines.extend(in_full.iter().map(|(caption, text)| (format!("{caption}, in full"), text.clone())));
    lines.retain(|(_, text)| !text.trim().is_empty());
    under("Notes", &lines, width)
}
