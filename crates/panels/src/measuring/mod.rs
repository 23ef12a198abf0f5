//! Measures in space between two landmarks, and tells what the tube takes up: a window over the scene.

mod model;

use egui::{ComboBox, Grid, RichText, Ui, Window, vec2};
use elbowroom_workbench::{Command, Landmark, Measured, Workbench};

pub use model::Model;

use crate::style::heading_text;

/// Width of the window, points.
const WIDTH: f32 = 330.0;
/// Width of a list, points.
const LIST: f32 = 230.0;

/// Shows the window; says what was asked for.
pub fn ui(ui: &mut Ui, workbench: &Workbench) -> Vec<Command> {
    let model = Model::of(workbench);
    let mut commands = Vec::new();
    let mut open = true;
    let free = ui.available_rect_before_wrap();
    let window = Window::new("Measure").id(egui::Id::new("measuring")).open(&mut open).collapsible(false);
    // Below the compass, clear of what moves and turns.
    window.resizable(false).default_pos(free.left_top() + vec2(12.0, 60.0)).constrain_to(free).show(ui.ctx(), |ui| {
        ui.set_width(WIDTH.min(free.width() - 40.0));
        commands.extend(content(ui, &model));
    });
    if !open {
        commands.push(Command::ToggleMeasuring);
    }
    commands
}

fn content(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    let Measured { from, to } = model.measured;
    let mut chosen = model.measured;
    Grid::new("between").num_columns(2).show(ui, |ui| {
        ui.label("From");
        chosen.from = list(ui, "Measure from", model, from);
        ui.end_row();
        ui.label("To");
        chosen.to = list(ui, "Measure to", model, to);
        ui.end_row();
    });
    if chosen != model.measured {
        commands.push(Command::Measure(chosen));
    }
    ui.horizontal(|ui| {
        let hint = "The two things that were selected last; of one alone its height over the floor";
        if ui.add_enabled(model.has_selection, egui::Button::new("Take what is selected")).on_hover_text(hint).clicked()
        {
            commands.push(Command::MeasureSelected);
        }
        if ui.button("Other way round").clicked() {
            commands.push(Command::Measure(Measured { from: to, to: from }));
        }
    });
    ui.separator();
    figures(ui, "measured", model.lines());
    ui.separator();
    figures(ui, "overall", model.overall());
    commands
}

/// Names with their figures, the first of them large.
fn figures(ui: &mut Ui, id: &str, lines: Vec<(&'static str, String)>) {
    Grid::new(id).num_columns(2).spacing(vec2(14.0, 3.0)).show(ui, |ui| {
        for (index, (name, value)) in lines.into_iter().enumerate() {
            ui.label(name);
            let value = RichText::new(value);
            ui.label(if index == 0 { value.text_style(heading_text()) } else { value });
            ui.end_row();
        }
    });
}

fn list(ui: &mut Ui, label: &str, model: &Model, now: Landmark) -> Landmark {
    let mut chosen = now;
    let shown = ComboBox::from_id_salt(label).width(LIST).height(420.0).selected_text(model.name(now));
    let response = shown.show_ui(ui, |ui| {
        for named in &model.landmarks {
            ui.selectable_value(&mut chosen, named.landmark, &named.name);
        }
    });
    let name = format!("{label}: {}", model.name(now));
    response.response.widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::ComboBox, true, &name));
    chosen
}
