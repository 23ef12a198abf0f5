//! The ways of tooling as rows that can be clicked: mark, die set and clamp, verdict, what it takes.

use egui::{Label, Rect, RichText, Sense, Ui, UiBuilder, WidgetInfo, WidgetType, vec2};
use elbowroom_workbench::Command;

use super::{Model, Row};
use crate::colours::{colour, colours};
use crate::style::heading_text;
use crate::widgets::mark;

/// Draws every way and says which one was asked for.
pub(super) fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    if model.rows.is_empty() {
        ui.label("The shop has no die set with a clamp for this tube.");
    } else {
        ui.label(RichText::new("Best first. Click one to take it; undo brings back what was.").small().weak());
    }
    let mut commands = Vec::new();
    for (index, row) in model.rows.iter().enumerate() {
        if one(ui, index, row) {
            commands.push(Command::Edit(row.edit.clone()));
        }
    }
    commands
}

/// Draws one way; says whether it was clicked.
fn one(ui: &mut Ui, index: usize, row: &Row) -> bool {
    let palette = colours(ui);
    let builder = UiBuilder::new().id_salt(("tooling", index)).sense(Sense::click());
    let scope = ui.scope_builder(builder, |ui| {
        let over = ui.response().contains_pointer();
        let fill = match (row.taken, over) {
            (true, _) => palette.selection,
            (false, true) => palette.hovered,
            (false, false) => palette.field,
        };
        let frame =
            egui::Frame::new().fill(colour(fill)).corner_radius(4.0).inner_margin(egui::Margin::symmetric(8, 4));
        frame.show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.horizontal(|ui| {
                if let Some(severity) = row.severity {
                    mark(ui, severity, 14.0);
                }
                let name = if row.taken { format!("{} (in use)", row.tooling) } else { row.tooling.clone() };
                ui.label(RichText::new(name).text_style(heading_text()));
            });
            ui.add(Label::new(&row.verdict).wrap());
            ui.add(Label::new(RichText::new(&row.how).small().weak()).wrap());
        });
        if row.taken {
            // A bar at the edge, so that the choice is not told by colour alone.
            let whole = ui.min_rect();
            let bar = Rect::from_min_size(whole.left_top(), vec2(4.0, whole.height()));
            ui.painter().rect_filled(bar, 2.0, colour(palette.accent));
        }
    });
    let response = scope.response;
    let label = format!("take {}, {}: {}", row.tooling, row.how, row.verdict);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    response.clicked()
}
