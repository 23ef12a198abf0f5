//! What came of the pieces: verdict, deviations, and the program for the next one.

use egui::{Grid, RichText, Ui};
use elbowroom_bending::Severity;
use elbowroom_bending::setup::UNSURE_LEGEND;
use elbowroom_workbench::Command;

use super::deviations::Table;
use super::model::{PieceLine, View};
use super::next::{CAUTION, Next};
use crate::program::{Drawing, copies, corrected, steps};
use crate::widgets::{heading, mark};

/// The judgement: what came of the pieces.
pub(super) fn ui(ui: &mut Ui, view: &View) -> Vec<Command> {
    heading(ui, "What came of it", |_| ());
    ui.horizontal_wrapped(|ui| {
        if view.within != Some(true) {
            mark(ui, Severity::Stop, 16.0);
        }
        ui.label(RichText::new(&view.verdict).strong());
    });
    let mut commands = Vec::new();
    for (index, piece) in view.pieces.iter().enumerate() {
        // Of the last piece the verdict has said it.
        let is_last = index + 1 == view.pieces.len();
        ui.push_id(index, |ui| commands.extend(self::piece(ui, index, piece, is_last && view.within.is_none())));
    }
    if let Some(off) = &view.off {
        ui.add_space(6.0);
        heading(ui, "Measured less drawn", |_| ());
        deviations(ui, off);
    }
    if let Some(compared) = &view.compared {
        ui.label(RichText::new(compared).small().weak());
    }
    commands
}

/// The program for the next piece, or why none is corrected.
pub(super) fn correction(ui: &mut Ui, view: &View, drawing: Drawing) -> Vec<Command> {
    match &view.next {
        Some(next) => program(ui, next, drawing),
        None => {
            ui.label(view.no_correction);
            Vec::new()
        }
    }
}

/// One piece in a line, and what can be done about a doubt.
fn piece(ui: &mut Ui, index: usize, piece: &PieceLine, is_said: bool) -> Option<Command> {
    let number = index + 1;
    ui.label(format!("{}: {}.", piece.name, piece.came_out));
    let told = |ui: &mut Ui, text: &str| {
        ui.horizontal_wrapped(|ui| {
            mark(ui, Severity::Caution, 12.0);
            ui.label(text);
        });
    };
    if let Some(why) = piece.aside.as_ref().filter(|_| !is_said) {
        told(ui, &format!("It does not count in the next program: {why}."));
    }
    if piece.can_be_stood_by {
        let button = ui.button(format!("I measured piece {number} again: take it as it is"));
        let hint = "Measure it again first. What was doubted is then compared and corrected like any other piece.";
        return button.on_hover_text(hint).clicked().then_some(Command::TakeAsMeasured(index, true));
    }
    let stood_by = piece.stood_by.as_ref()?;
    told(ui, stood_by);
    ui.button(format!("Doubt piece {number} again")).clicked().then_some(Command::TakeAsMeasured(index, false))
}

fn program(ui: &mut Ui, next: &Next, drawing: Drawing) -> Vec<Command> {
    ui.add_space(6.0);
    heading(ui, "Program for the next piece", |_| ());
    for stop in &next.stops {
        ui.horizontal_wrapped(|ui| {
            mark(ui, Severity::Stop, 16.0);
            ui.label(RichText::new(stop).strong());
        });
    }
    let asked = corrected(ui, next.correction.0, next.correction.1);
    ui.label(RichText::new(&next.reading).small().weak());
    ui.label(&next.blank);
    let copied = copies(ui, "program", next.unit, || next.to_string(), &next.table);
    let mut commands = steps::lines(ui, &next.steps, drawing);
    ui.add_space(4.0);
    ui.label(&next.ground);
    if next.unsure {
        ui.label(RichText::new(UNSURE_LEGEND).small().weak());
    }
    ui.label(RichText::new(CAUTION).small().weak());
    commands.extend(asked);
    commands.extend(copied);
    commands
}

fn deviations(ui: &mut Ui, table: &Table) {
    Grid::new("deviations").num_columns(table.head.len()).striped(true).min_col_width(30.0).show(ui, |ui| {
        for head in table.head {
            ui.label(RichText::new(head).small().weak());
        }
        ui.end_row();
        for row in &table.rows {
            for (cell, out) in row.cells.iter().zip(row.out) {
                let text = RichText::new(cell);
                // Underlined as well, so that it is not told by colour alone.
                ui.label(if out { text.strong().underline() } else { text });
            }
            ui.end_row();
        }
    });
}
