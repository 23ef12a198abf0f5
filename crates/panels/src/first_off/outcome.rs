//! What came of the first-off: verdict, deviations, and the program for the next piece.

use egui::{Grid, RichText, Ui};
use elbowroom_bending::Severity;
use elbowroom_bending::program::ROTATION_SENSE;

use super::model::{Table, View};
use crate::widgets::{heading, mark};

pub(super) fn ui(ui: &mut Ui, view: &View) {
    ui.horizontal_wrapped(|ui| {
        if !view.within {
            mark(ui, Severity::Stop, 16.0);
        }
        ui.label(RichText::new(&view.verdict).strong());
    });
    heading(ui, "Measured less drawn", |_| ());
    table(ui, "deviations", &view.off, false);
    ui.add_space(6.0);
    heading(ui, "Program for the next piece", |_| ());
    table(ui, "next program", &view.next, view.unsure);
    ui.label(&view.blank);
    if view.unsure {
        ui.horizontal_wrapped(|ui| {
            mark(ui, Severity::Caution, 12.0);
            ui.label("Set angles in slanted figures rest on theory for their springback.");
        });
    }
    let text = format!(
        "Rotation is positive {ROTATION_SENSE}. A corrected program is an estimate until the next piece is bent and measured; keep clear of the swing."
    );
    ui.label(RichText::new(text).small().weak());
}

fn table(ui: &mut Ui, name: &str, table: &Table, unsure: bool) {
    Grid::new(name).num_columns(table.head.len()).striped(true).min_col_width(30.0).show(ui, |ui| {
        for head in &table.head {
            ui.label(RichText::new(*head).small().weak());
        }
        ui.end_row();
        for row in &table.rows {
            for cell in &row.cells {
                let text = RichText::new(cell);
                let text = if row.marked { text.strong() } else { text };
                ui.label(if unsure { text.italics() } else { text });
            }
            ui.end_row();
        }
    });
}
