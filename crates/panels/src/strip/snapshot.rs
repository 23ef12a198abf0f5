//! The strip in words, for tests and for whoever cannot see it.

use std::fmt;

use elbowroom_workbench::Target;

use super::model::Model;
use crate::widgets::UNSURE;

const fn mark(unsure: bool) -> &'static str {
    if unsure { UNSURE } else { "" }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.lead_trim_mm > 0.0 {
            writeln!(out, "trim {}{:.1} before the start", mark(self.trims_unsure[0]), self.lead_trim_mm)?;
        }
        for piece in &self.pieces {
            let marks = [(piece.selected, " selected"), (piece.hovered, " hovered")];
            let marks: String = marks.iter().filter(|(on, _)| *on).map(|(_, word)| *word).collect();
            let (from, to) = (piece.from_mm, piece.to_mm());
            match (piece.target, piece.arc) {
                (Target::Bend(bend), Some((angle, clr))) => {
                    let angle = angle.to_degrees();
                    writeln!(out, "bend {} {from:.1} to {to:.1}: {angle:.1}° at {clr:.1}{marks}", bend + 1)?;
                }
                _ => writeln!(out, "straight {from:.1} to {to:.1}: {:.1}{marks}", piece.length_mm)?,
            }
        }
        if self.tail_trim_mm > 0.0 {
            writeln!(out, "trim {}{:.1} behind the finish", mark(self.trims_unsure[1]), self.tail_trim_mm)?;
        }
        for clamp in &self.footprints {
            write!(out, "clamp of bend {} {:.1} to {:.1}", clamp.bend + 1, clamp.from_mm, clamp.to_mm)?;
            if clamp.overlap_mm > 0.0 {
                let verdict = clamp.severity.map_or("no mark", |severity| severity.word());
                write!(out, ", over the arc by {:.1}, bite {:.2}: {verdict}", clamp.overlap_mm, clamp.bite_mm)?;
            }
            writeln!(out)?;
        }
        for mark in &self.marks {
            writeln!(out, "{} {} {:.1} to {:.1}", mark.severity.word(), mark.fault, mark.from_mm, mark.to_mm)?;
        }
        if let Some(seam) = &self.seam {
            let clocks: Vec<String> =
                seam.clocks_rad.iter().map(|clock| format!("{:.0}°", clock.to_degrees())).collect();
            writeln!(out, "seam from the outside: {}", clocks.join(", "))?;
        }
        Ok(())
    }
}
