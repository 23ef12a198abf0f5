//! Where what was measured is typed or pasted.

use egui::{FontSelection, RichText, TextEdit, TextStyle, Ui, WidgetInfo, WidgetType};
use elbowroom_workbench::Command;
use elbowroom_workbench::measured_table::{Kind, read_measured};

use super::model::{Model, Stand};
use crate::widgets::heading;

/// The table that is being typed.
#[derive(Clone, Debug, Default)]
pub struct State {
    text: String,
    kind: Kind,
    error: Option<String>,
}

pub(super) fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    heading(ui, "What was measured", |_| ());
    let mut commands = Vec::new();
    ui.horizontal_wrapped(|ui| {
        for (kind, name) in [(Kind::Vertices, "Vertices"), (Kind::Rows, "Bend rows")] {
            if ui.radio(state.kind == kind, name).clicked() {
                state.kind = kind;
                state.error = None;
            }
        }
    });
    let hint = match state.kind {
        Kind::Vertices => "x y z of each vertex, a line each: lead end, bends, tail end",
        Kind::Rows => "straight, rotation, angle of each bend, a line each; the tail alone on the last",
    };
    ui.label(
        RichText::new(format!("{hint}. Lengths in {} unless a head line says mm.", model.unit.symbol())).small().weak(),
    );
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
    ui.horizontal_wrapped(|ui| {
        if ui.button("Judge").on_hover_text("Compare this with the design").clicked() {
            match read_measured(&state.text, state.kind, model.unit) {
                Ok(measurement) => {
                    state.error = None;
                    commands.push(Command::SetMeasurement(measurement));
                }
                Err(problem) => state.error = Some(format!("Not read. {}.", capital(&problem.to_string()))),
            }
        }
        if ui.button("Open a file\u{2026}").on_hover_text("Read a comma-separated table of points").clicked() {
            commands.push(Command::AskMeasurement);
        }
        if model.stand != Stand::Nothing
            && ui.button("Put away").on_hover_text("Forget this measurement; the text above stays").clicked()
        {
            commands.push(Command::ClearMeasurement);
        }
    });
    commands
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().collect::<String>() + letters.as_str()).unwrap_or_default()
}
