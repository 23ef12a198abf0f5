//! The clearances of a tube as a person reads them.

use std::io;

use elbowroom_bending::Solved;
use elbowroom_bending::around::Clearance;
use elbowroom_geometry::units::LengthUnit;

use super::formed_text::marked_if;
use super::sink::Sink;
use super::table::lined_up;

/// Writes what stands around the tube, and how near; nothing where nothing was asked for.
pub(super) fn section(out: &mut Sink, solved: &Solved, unit: LengthUnit) -> io::Result<()> {
    if solved.clearances.is_empty() {
        return Ok(());
    }
    out.text(&format!("\nAround the tube, {}\n", unit.name()))?;
    let rows: Vec<_> = solved.clearances.iter().map(|clearance| row(clearance, unit)).collect();
    out.text(&lined_up(&["To", "Kind", "Least", "At", "Wanted", "Rests on"], &rows))?;
    out.text("Least is from the tube's outside; below zero it reaches so far in at least. At is along the tube.\n")
}

fn row(clearance: &Clearance, unit: LengthUnit) -> Vec<String> {
    let length = |length_mm: f64| unit.bare(length_mm).to_string();
    let gap = clearance.measured.as_ref().ok();
    let wanted = &clearance.wanted;
    vec![
        clearance.to.to_string(),
        clearance.kind.said().to_owned(),
        gap.map_or_else(|| "not measured".into(), |gap| length(gap.least_mm)),
        gap.map_or_else(|| "-".into(), |gap| length(gap.at_mm)),
        marked_if(wanted.basis) + &length(wanted.clearance_mm),
        wanted.basis.map_or("not to touch", |basis| basis.said()).to_owned(),
    ]
}
