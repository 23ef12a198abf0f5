//! Where what was measured is typed or pasted.

use egui::{FontSelection, RichText, TextEdit, TextStyle, Ui, WidgetInfo, WidgetType};
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::text::capital;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::Command;
use elbowroom_workbench::measured_table::{Kind, read_measured};

use super::model::Model;
use crate::widgets::heading;

/// The table that is being typed.
#[derive(Clone, Debug, Default)]
pub(super) struct State {
    text: String,
    kind: Kind,
    error: Option<String>,
}

pub(super) fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    heading(ui, "What was measured", |_| ());
    let mut commands = Vec::new();
    ui.horizontal_wrapped(|ui| {
        for (kind, name) in [(Kind::Points, "Points"), (Kind::Rows, "Bend rows")] {
            if ui.radio(state.kind == kind, name).clicked() {
                state.kind = kind;
                state.error = None;
            }
        }
    });
    let hint = match state.kind {
        Kind::Points => points_hint(model),
        Kind::Rows => {
            "From the start of the drawing: straight, rotation, angle of each bend, a line each; the straight behind the last bend alone on the last"
                .to_owned()
        }
    };
    ui.label(RichText::new(format!("{hint}. {}", lengths_hint(state.kind, model.unit))).small().weak());
    let before = state.text.clone();
    let edit = TextEdit::multiline(&mut state.text)
        .desired_rows(6)
        .desired_width(f32::INFINITY)
        .font(FontSelection::Style(TextStyle::Monospace));
    let response = ui.add(edit);
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(WidgetType::TextEdit, true, "Measured table");
        info.current_text_value = Some(before.clone());
        info
    });
    if response.changed() {
        state.error = None;
    }
    if let Some(error) = &state.error {
        ui.label(RichText::new(error).color(ui.visuals().error_fg_color));
    }
    ui.horizontal_wrapped(|ui| commands.extend(buttons(ui, model, state)));
    ui.label(RichText::new(bent_by(model)).small().weak());
    commands
}

/// Which points there are to measure.
fn points_hint(model: &Model) -> String {
    let bends: Vec<String> = model.by_arc_ends.iter().map(|bend| (bend + 1).to_string()).collect();
    let two = match bends.as_slice() {
        [] => String::new(),
        [one] => format!("; bend {one} turns so far that it gives two, where its arc begins and where it ends"),
        [before @ .., last] => format!(
            "; bends {} and {last} turn so far that they give two each, where the arc begins and where it ends",
            before.join(", ")
        ),
    };
    format!(
        "x y z of {} points, a line each, from the start of the drawing: start, bends, finish. A bend's point is where the \
         middles of its straights would meet{two}",
        model.points
    )
}

/// By what the next piece is taken to be bent.
fn bent_by(model: &Model) -> String {
    let number = model.pieces + 1;
    if model.corrected() {
        return format!(
            "Piece {number} is taken as bent by the program for the next piece as it is now. Pieces are kept with the part."
        );
    }
    format!(
        "Piece {number} is taken as bent by the sheet Program as it is now; change the drawing after it is judged. Pieces are kept \
         with the part."
    )
}

fn buttons(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    let mut commands = Vec::new();
    let last = model.pieces;
    let mut judge: Option<fn(Measurement) -> Command> = None;
    if last == 0 {
        if ui.button("Judge").on_hover_text("Compare this with the design").clicked() {
            judge = Some(Command::SetMeasurement);
        }
    } else {
        let hint = "Take this as the next piece, bent by the correction from those before it";
        if ui.button(format!("Add piece {}", last + 1)).on_hover_text(hint).clicked() {
            judge = Some(Command::AddPiece);
        }
        let hint = "Take this in place of what was measured on the last piece; what it was bent by stays";
        if ui.button(format!("Piece {last} again")).on_hover_text(hint).clicked() {
            judge = Some(Command::SetMeasurement);
        }
    }
    if let Some(judge) = judge {
        match read_measured(&state.text, state.kind, model.unit) {
            Ok(measurement) => {
                state.error = None;
                commands.push(judge(measurement));
            }
            Err(problem) => state.error = Some(format!("Not read. {}.", capital(&problem.to_string()))),
        }
    }
    let hint = format!("Read piece {} from a comma-separated table", last + 1);
    if ui.button("Open a file\u{2026}").on_hover_text(hint).clicked() {
        commands.push(Command::AskMeasurement);
    }
    if last > 0 {
        let hint = "Forget the last piece; the text above stays, and undo brings the piece back";
        if ui.button(format!("Put piece {last} away")).on_hover_text(hint).clicked() {
            commands.push(Command::ClearMeasurement);
        }
    }
    commands
}

/// In which unit the lengths of a table are.
fn lengths_hint(kind: Kind, unit: LengthUnit) -> String {
    let heads = match kind {
        Kind::Points => "x_mm, y_mm, z_mm",
        Kind::Rows => "straight_mm, rotation_deg, angle_deg",
    };
    match unit {
        LengthUnit::Millimetre => "Lengths in mm.".to_owned(),
        other => format!("Lengths in {}; in mm where the first line is {heads}.", other.name()),
    }
}
