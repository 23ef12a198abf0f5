//! The message: what was done or could not be done, over the lower edge of the scene until put away.

use std::fmt;

use egui::{Align2, Area, Frame, Id, Label, Margin, Order, RichText, Stroke, Ui, vec2};
use elbowroom_workbench::{Command, MessageKind, Workbench};

use crate::colours::{colour, colours};
use crate::style::heading_text;

/// What the message says.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// How it is meant.
    pub kind: MessageKind,
    /// What it says.
    pub text: String,
}

impl Model {
    /// The message that is shown.
    pub fn of(workbench: &Workbench) -> Option<Self> {
        let message = workbench.screen().message.as_ref()?;
        Some(Self { kind: message.kind, text: message.text.clone() })
    }

    const fn title(&self) -> &'static str {
        match self.kind {
            MessageKind::Done => "Done",
            MessageKind::Refused => "Not done",
            MessageKind::Busy => "At work",
        }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}: {}", self.title(), self.text)
    }
}

/// Draws the message over the place that `ui` has left.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let palette = colours(ui);
    let scene = ui.available_rect_before_wrap();
    let place = scene.center_bottom() + vec2(0.0, -12.0);
    let width = (scene.width() - 40.0).clamp(180.0, 560.0);
    let area = Area::new(Id::new("message")).order(Order::Middle).pivot(Align2::CENTER_BOTTOM).fixed_pos(place);
    let shown = area.constrain(true).show(ui.ctx(), |ui| {
        let edge = match model.kind {
            MessageKind::Done | MessageKind::Busy => palette.border,
            MessageKind::Refused => palette.error_text,
        };
        let frame = Frame::window(ui.style()).stroke(Stroke::new(1.5, colour(edge)));
        frame.inner_margin(Margin::symmetric(14, 10)).show(ui, |ui| {
            ui.set_max_width(width);
            let title = RichText::new(model.title()).text_style(heading_text());
            let colour = colour(if model.kind == MessageKind::Refused { palette.error_text } else { palette.text });
            let mut closed = false;
            ui.horizontal(|ui| {
                ui.label(title.color(colour));
                ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                    closed = ui.button("Close").clicked();
                });
            });
            ui.add(Label::new(&model.text).wrap());
            closed
        })
    });
    if shown.inner.inner { vec![Command::DismissMessage] } else { Vec::new() }
}
