//! The table of trial bends that one can type into.

use egui::{Align, Button, Key, Layout, RichText, TextEdit, Ui, WidgetInfo, WidgetType, vec2};
use elbowroom_bending::forming::springback::{SpringbackFit, TrialBend, TrialFigures};
use elbowroom_bending::text::capital;
use elbowroom_bending::{Guard, Knowledge, Severity};
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length_exact, parse_angle, parse_length};
use elbowroom_geometry::{Angle, Length, Refusal};
use elbowroom_workbench::Command;

use super::Known;
use crate::widgets::{FieldError, bare_entry_field, heading, mark, tell};

/// A trial bend that is being typed.
#[derive(Clone, Debug, Default)]
pub struct State {
    fields: [String; 5],
    error: Option<String>,
}

/// Usual and least width of a field, points.
const FIELD: (f32, f32) = (66.0, 40.0);
/// Width of a trial's number, points.
const NUMBER: f32 = 14.0;
/// Width of the button that removes a trial, points.
const REMOVE: f32 = 29.0;
/// Space between two places of a row, points.
const GAP: f32 = 5.0;
/// Width of how far a trial lies off the line, points.
const OFF: f32 = 44.0;
/// The fields of a trial bend, in order; all but the angles may stay empty. A wall left empty is that of the tube in
/// hand on a new trial, and not noted on one that is there.
const NAMES: [&str; 5] = ["set angle", "measured angle", "measured radius", "length drawn", "wall"];
const HEADS: [&str; 5] = ["Set", "Measured", "Radius", "Drawn", "Wall"];
/// Their widths as shares of the usual one: the longest heading must not touch the next.
const SHARES: [f32; 5] = [0.86, 1.25, 0.93, 0.93, 1.03];

pub(super) fn ui(ui: &mut Ui, known: &Known, state: &mut State) -> Vec<Command> {
    heading(ui, "Trial bends", |_| ());
    let mut commands = Vec::new();
    ui.horizontal(|ui| {
        let widths = field_widths(ui);
        ui.spacing_mut().item_spacing.x = GAP;
        told(ui, NUMBER, RichText::new(""));
        for (head, width) in HEADS.into_iter().zip(widths) {
            told(ui, width, RichText::new(head).small().weak());
        }
        told(ui, OFF, RichText::new("Off line").small().weak());
    });
    for index in 0..known.trials.len() {
        ui.push_id(index, |ui| commands.extend(row(ui, known, index)));
    }
    commands.extend(new_row(ui, known, state));
    if known.trials.is_empty() {
        let text =
            "Bend two or more pieces at angles far apart, release them, and enter what was set and what was measured.";
        ui.label(RichText::new(text).small().weak());
    }
    commands
}

/// The widths of the fields, so that a row fits the column and every heading its field.
fn field_widths(ui: &Ui) -> [f32; 5] {
    let rest = NUMBER + OFF + REMOVE + GAP * (NAMES.len() + 2) as f32;
    let width = ((ui.available_width() - rest) / NAMES.len() as f32).clamp(FIELD.1, FIELD.0);
    SHARES.map(|share| share * width)
}

/// One trial bend.
fn row(ui: &mut Ui, known: &Known, index: usize) -> Option<Command> {
    let number = index + 1;
    let trial = known.trials[index];
    let changed = |trial: TrialFigures| {
        let refused =
            |refusal: Refusal| FieldError::Refused(format!("{}.", refusal.of(format_args!("trial {number}"))));
        let trial = trial.sound().map_err(refused)?;
        let mut trials = known.trials.clone();
        trials[index] = trial;
        Ok(known.change(Knowledge::Trials(trials)))
    };
    let mut command = None;
    let mut wrong = Vec::new();
    ui.horizontal_top(|ui| {
        let widths = field_widths(ui);
        ui.spacing_mut().item_spacing.x = GAP;
        told(ui, NUMBER, number.to_string().into());
        for (field, (name, width)) in NAMES.into_iter().zip(widths).enumerate() {
            let label = format!("{} of trial {number}", capital(name));
            let shown = shown(&trial, field, known.unit);
            let (given, error) = cell(ui, width, |ui| {
                bare_entry_field(ui, &label, &shown, |text| changed(with(*trial, field, text, known.unit)?))
            });
            command = command.take().or(given);
            wrong.extend(error.map(|error| (label, error)));
        }
        let off = known.fit.as_ref().and_then(|fit| fit.residuals.get(index));
        let is_odd = known.fit.as_ref().and_then(SpringbackFit::odd) == Some(index);
        let off = RichText::new(off.map_or_else(String::new, |off| format_angle(*off, 2)));
        // The one that does not fit, told by the word beneath and not by weight alone.
        told(ui, OFF, if is_odd { off.strong() } else { off });
        let remove = ui
            .add(Button::new("×").min_size(vec2(REMOVE, ui.spacing().interact_size.y)))
            .on_hover_text("Remove this trial bend");
        let label = format!("Remove trial {number}");
        remove.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
        if remove.clicked() {
            let mut trials = known.trials.clone();
            trials.remove(index);
            command = Some(known.change(Knowledge::Trials(trials)));
        }
    });
    if known.fit.as_ref().and_then(SpringbackFit::odd) == Some(index) {
        ui.horizontal(|ui| {
            mark(ui, Severity::Caution, 12.0);
            ui.label(RichText::new(format!("Trial {number} does not fit and is left out.")).small());
        });
    }
    // Beneath the row, where there is room to say what is wrong.
    for (label, error) in &wrong {
        ui.label(RichText::new(format!("{label}:")).color(ui.visuals().error_fg_color));
        tell(ui, error);
    }
    command
}

/// The row in which a new trial bend is typed.
fn new_row(ui: &mut Ui, known: &Known, state: &mut State) -> Option<Command> {
    let mut entered = false;
    ui.horizontal_top(|ui| {
        let widths = field_widths(ui);
        ui.spacing_mut().item_spacing.x = GAP;
        told(ui, NUMBER, "+".into());
        for ((text, name), width) in state.fields.iter_mut().zip(NAMES).zip(widths) {
            let before = text.clone();
            let response = cell(ui, width, |ui| {
                let edit = TextEdit::singleline(text).desired_width(ui.available_width()).vertical_align(Align::Center);
                ui.add(edit.min_size(vec2(0.0, ui.spacing().interact_size.y)))
            });
            let label = format!("New {name}");
            response.widget_info(|| {
                let mut info = WidgetInfo::labeled(WidgetType::TextEdit, true, &label);
                info.current_text_value = Some(before.clone());
                info
            });
            if response.changed() {
                state.error = None;
            }
            entered |= response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        }
        entered |= ui.button("Add").on_hover_text("Add this trial bend").clicked();
    });
    if let Some(error) = &state.error {
        ui.label(RichText::new(error).color(ui.visuals().error_fg_color));
    }
    if !entered {
        return None;
    }
    match typed(&state.fields, known) {
        Ok(trial) => {
            *state = State::default();
            let mut trials = known.trials.clone();
            trials.push(trial);
            Some(known.change(Knowledge::Trials(trials)))
        }
        Err(error) => {
            state.error = Some(error);
            None
        }
    }
}

/// The trial bend that was typed.
fn typed(fields: &[String; 5], known: &Known) -> Result<TrialBend, String> {
    let blank = TrialFigures {
        set: Angle::ZERO,
        measured: Angle::ZERO,
        measured_radius: None,
        drawn_length: None,
        wall: Some(known.wall),
    };
    let mut trial = blank;
    for (field, text) in fields.iter().enumerate() {
        let name = capital(NAMES[field]);
        if text.trim().is_empty() {
            if field < 2 {
                return Err(format!("{name} is missing."));
            }
            continue;
        }
        trial = with(trial, field, text, known.unit).map_err(|error| match error {
            FieldError::Unreadable(error) => format!("{name}: {}. {}.", error.what, capital(&error.would_be_right)),
            FieldError::Refused(reason) => reason,
        })?;
    }
    let number = known.trials.len() + 1;
    trial.sound().map_err(|refusal| format!("{}.", capital(&refusal.of(format_args!("trial {number}")).to_string())))
}

/// A trial bend with one field as it was typed.
fn with(mut trial: TrialFigures, field: usize, text: &str, unit: LengthUnit) -> Result<TrialFigures, FieldError> {
    let length = || -> Result<Option<Length>, FieldError> {
        if text.trim().is_empty() { Ok(None) } else { Ok(Some(parse_length(text, unit)?)) }
    };
    match field {
        0 => trial.set = parse_angle(text)?,
        1 => trial.measured = parse_angle(text)?,
        2 => trial.measured_radius = length()?,
        3 => trial.drawn_length = length()?,
        _ => trial.wall = length()?,
    }
    Ok(trial)
}

/// A field as it is shown.
fn shown(trial: &TrialBend, field: usize, unit: LengthUnit) -> String {
    let length = |length: Option<Length>| length.map_or_else(String::new, |length| format_length_exact(length, unit));
    match field {
        0 => degrees(trial.set),
        1 => degrees(trial.measured),
        2 => length(trial.measured_radius),
        3 => length(trial.drawn_length),
        _ => length(trial.wall),
    }
}

/// An angle to a billionth of a degree, which is far below what anybody means.
fn degrees(angle: Angle) -> String {
    format!("{}°", (angle.degrees() * 1e9).round() / 1e9)
}

/// A text in a place of a fixed width, as high as the fields beside it.
fn told(ui: &mut Ui, width: f32, text: RichText) {
    let size = vec2(width, ui.spacing().interact_size.y);
    ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(width);
        ui.set_max_width(width);
        ui.label(text);
    });
}

/// A place of a fixed width in a row.
fn cell<R>(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui) -> R) -> R {
    let size = vec2(width, ui.spacing().interact_size.y);
    ui.allocate_ui_with_layout(size, Layout::top_down(Align::Min), |ui| {
        ui.set_min_width(width);
        ui.set_max_width(width);
        content(ui)
    })
    .inner
}
