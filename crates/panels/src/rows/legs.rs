//! Under the table: the spacing of a U's legs, typed where its row is.

use std::fmt;

use egui::{RichText, Ui};
use elbowroom_bending::Edit;
use elbowroom_bending::forming::growth::{LEGS_CROSS_FROM, VERTEX_HELD_TO, is_u};
use elbowroom_geometry::units::{LengthUnit, format_angle, parse_length};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::{Command, Workbench};

use crate::forming::LegsView;
use crate::widgets::{FieldError, entry_field, named_row, shown_length};

/// The legs of the bend that is selected, else of the first U.
#[derive(Clone, Debug, PartialEq)]
pub struct Legs {
    /// The bend, counted from 0.
    pub bend: usize,
    /// Its angle.
    pub angle: Angle,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// Its legs; none where it is no U.
    pub of_u: Option<LegsView>,
}

impl Legs {
    /// Those of the part that is shown; `None` where it has no U.
    pub(super) fn of(workbench: &Workbench) -> Option<Self> {
        let (part, solved) = (workbench.part(), workbench.solved());
        let rows = solved.form.path.rows();
        let first = rows.iter().position(|row| is_u(row.angle))?;
        let bend = workbench.selection().bend().filter(|bend| *bend < rows.len()).unwrap_or(first);
        let of_u = LegsView::of(part, workbench.shop(), solved, bend);
        Some(Self { bend, angle: rows[bend].angle, unit: part.units, of_u })
    }

    /// The edit that a typed spacing asks for.
    ///
    /// # Errors
    /// Refuses what cannot be read, a bend that is no U, and legs that would lie within each other.
    pub fn edit(&self, text: &str) -> Result<Edit, FieldError> {
        let spacing: Length = parse_length(text, self.unit)?;
        match &self.of_u {
            Some(legs) => legs.edit(spacing),
            None => Err(FieldError::Refused(self.no_u())),
        }
    }

    fn no_u(&self) -> String {
        format!(
            "Bend {} turns {}, so its legs do not run back beside each other: only a bend from {} to {} has them a length apart.",
            self.bend + 1,
            format_angle(self.angle, 1),
            format_angle(VERTEX_HELD_TO, 0),
            format_angle(LEGS_CROSS_FROM, 0)
        )
    }

    fn shown(&self) -> String {
        self.of_u.as_ref().map_or_else(String::new, |legs| shown_length(legs.drawn, self.unit))
    }
}

/// Draws the field.
pub(super) fn ui(ui: &mut Ui, legs: &Legs) -> Option<Command> {
    /// Width of the name, points.
    const NAME: f32 = 150.0;
    let number = legs.bend + 1;
    let name = format!("Legs of bend {number} apart");
    let label = format!("leg spacing of row {number}");
    let typed = named_row(ui, NAME, &name, |ui| entry_field(ui, &label, &legs.shown(), |text| legs.edit(text)));
    if let Some(missing) = legs.of_u.as_ref().map(LegsView::missing).filter(|missing| !missing.is_empty()) {
        ui.label(RichText::new(missing).color(ui.visuals().error_fg_color));
    }
    typed.map(Command::Edit)
}

impl fmt::Display for Legs {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = self.shown();
        writeln!(out, "   legs of bend {} apart: {}", self.bend + 1, if shown.is_empty() { "–" } else { &shown })
    }
}
