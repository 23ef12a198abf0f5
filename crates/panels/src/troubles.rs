//! What went wrong and has not been dealt with: a line for each below the bar, with the ways out.

use std::fmt;

use egui::{Align, Label, Layout, RichText, ScrollArea, Ui, vec2};
use elbowroom_bending::Severity;
use elbowroom_workbench::{Command, Trouble, Workbench};

use crate::colours::{colour, colours};
use crate::widgets::paint_mark;

/// The lines take this share of the window's height at most; beyond it they are scrolled.
const LARGEST_SHARE: f32 = 0.3;
/// And this share in a window lower than so, points.
const LARGEST_SHARE_OF_LOW: f32 = 0.2;
const LOW: f32 = 600.0;

/// What the lines say.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The troubles, in the order in which they came.
    pub items: Vec<Trouble>,
}

impl Model {
    /// What has not been dealt with.
    pub fn of(workbench: &Workbench) -> Self {
        Self { items: workbench.troubles().to_vec() }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        for item in &self.items {
            write!(formatter, "{}", item.text)?;
            for (label, _) in item.about.ways() {
                write!(formatter, " ({label})")?;
            }
            writeln!(formatter)?;
        }
        Ok(())
    }
}

/// Draws the lines.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    let height = ui.ctx().viewport_rect().height();
    let tallest = height * if height < LOW { LARGEST_SHARE_OF_LOW } else { LARGEST_SHARE };
    // A panel remembers its height; without a least one, lines that come later would be scrolled in what is there.
    let area = ScrollArea::vertical().id_salt("troubles").max_height(tallest).min_scrolled_height(tallest);
    area.auto_shrink([false, true]).show(ui, |ui| {
        for item in &model.items {
            commands.extend(line(ui, item));
        }
    });
    commands
}

/// One trouble: its mark, its text, and its buttons below where they do not fit beside it.
fn line(ui: &mut Ui, item: &Trouble) -> Option<Command> {
    let palette = colours(ui);
    let mut asked = None;
    ui.horizontal_top(|ui| {
        let size = vec2(26.0, ui.text_style_height(&egui::TextStyle::Body));
        let (place, _) = ui.allocate_exact_size(size, egui::Sense::hover());
        let severity = if item.about.is_wrong() { Severity::Caution } else { Severity::Note };
        paint_mark(ui.painter(), palette, place, severity);
        ui.with_layout(Layout::top_down(Align::Min), |ui| {
            ui.add(Label::new(RichText::new(&item.text).color(colour(palette.text))).wrap());
            ui.horizontal_wrapped(|ui| {
                for &(label, deal) in item.about.ways() {
                    if ui.button(label).clicked() {
                        asked = Some(Command::Deal(item.about.clone(), deal));
                    }
                }
            });
        });
    });
    asked
}
