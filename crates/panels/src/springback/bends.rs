//! What is to be set for each bend on the die set.

use egui::{Grid, RichText, Ui};
use elbowroom_geometry::units::{format_angle, format_length};

use super::Known;
use crate::widgets::{figure, heading};

pub(super) fn ui(ui: &mut Ui, known: &Known) {
    heading(ui, "To be set", |_| ());
    if known.bends.is_empty() {
        ui.label("No bend of this part is made on it.");
        return;
    }
    Grid::new("to be set").num_columns(4).spacing([24.0, 6.0]).striped(true).show(ui, |ui| {
        for head in ["Bend", "Drawn", "Set", "Free CLR"] {
            ui.label(RichText::new(head).small().weak());
        }
        ui.end_row();
        for bend in &known.bends {
            ui.label(bend.number.to_string());
            ui.label(format_angle(bend.drawn, 1));
            figure(ui, &format_angle(bend.set, 1), known.ground(), "");
            figure(ui, &format_length(bend.free_clr, known.unit, known.unit.decimals()), known.ground(), "");
            ui.end_row();
        }
    });
}
