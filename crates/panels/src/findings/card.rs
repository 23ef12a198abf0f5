//! One finding as a card: mark and place, the sentence, the figures, the cures.

use egui::{Button, Frame, Label, Margin, Rect, RichText, Sense, Stroke, Ui, UiBuilder, WidgetInfo, WidgetType, vec2};
use elbowroom_bending::Edit;
use elbowroom_workbench::Command;

use super::Item;
use crate::colours::{colour, colours};
use crate::style::heading_text;
use crate::widgets::{link, mark};

/// What came of a card in a frame.
pub(super) struct Drawn {
    /// What was asked for.
    pub commands: Vec<Command>,
    /// Whether the pointer is over it.
    pub hovered: bool,
    /// The cure under the pointer or with the keyboard's focus.
    pub pointed: Option<Edit>,
}

/// Draws a finding.
pub(super) fn card(ui: &mut Ui, item: &Item) -> Drawn {
    let palette = colours(ui);
    let mut commands = Vec::new();
    let mut pointed = None;
    let builder = UiBuilder::new().id_salt(("finding", item.index)).sense(Sense::click());
    let scope = ui.scope_builder(builder, |ui| {
        let over = ui.response().contains_pointer();
        let fill = match (item.selected, over) {
            (true, _) => palette.selection,
            (false, true) => palette.hovered,
            (false, false) => palette.field,
        };
        let frame = Frame::new().fill(colour(fill)).stroke(Stroke::new(1.0, colour(palette.border))).corner_radius(5.0);
        frame.inner_margin(Margin { left: 12, right: 8, top: 7, bottom: 8 }).show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.horizontal(|ui| {
                mark(ui, item.severity, 18.0);
                ui.label(RichText::new(&item.place).text_style(heading_text()));
                ui.label(RichText::new(item.severity.word()).weak());
            });
            ui.add(Label::new(&item.text).wrap());
            ui.horizontal_wrapped(|ui| {
                ui.label(RichText::new(&item.figures).small().weak());
                let why = link(ui, "Manual page", &format!("manual page: {}, {}", item.title, item.place));
                if why.on_hover_text(format!("The manual page: {}", item.title)).clicked() {
                    commands.push(Command::ShowManual(item.fault));
                }
            });
            for cure in &item.cures {
                let button = ui.add(Button::new(&cure.label).wrap());
                let button = if cure.risk.is_empty() { button } else { button.on_hover_text(cure.risk.as_ref()) };
                if button.clicked() {
                    commands.push(Command::Edit(cure.edit.clone()));
                } else if button.hovered() || button.has_focus() {
                    pointed = Some(cure.edit.clone());
                }
                if !cure.outcome.is_empty() {
                    ui.label(RichText::new(&cure.outcome).small().weak());
                }
            }
            if let Some(first) = &item.cured_with {
                ui.label(RichText::new(format!("Goes with a cure of {first}.")).small().weak());
            }
        });
        if item.selected {
            // A bar at the edge, so that the selection is not told by colour alone.
            let whole = ui.min_rect();
            let bar = Rect::from_min_size(whole.left_top(), vec2(4.0, whole.height()));
            ui.painter().rect_filled(bar, 2.0, colour(palette.accent));
        }
    });
    let response = scope.response;
    let label = format!("{} at {}: {}", item.severity.word(), item.place, item.title);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    if response.clicked() {
        commands.push(Command::GoToFinding(item.index));
    }
    Drawn { commands, hovered: response.contains_pointer(), pointed }
}
