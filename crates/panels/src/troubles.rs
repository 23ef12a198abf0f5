//! What went wrong and has not been dealt with: one line for each below the bar, with the ways out; the whole text is
//! folded away, since the scene needs the room.

use std::fmt;

use egui::{Align, Label, Layout, RichText, ScrollArea, Ui, vec2};
use elbowroom_bending::Severity;
use elbowroom_workbench::{Command, Trouble, Workbench};

use crate::colours::{colour, colours};
use crate::widgets::{link, paint_mark};

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
            write!(formatter, "{} {}", item.about.headline(), item.text)?;
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

/// In a window narrower than this, points, the buttons stand below the line.
const ROOM_BESIDE: f32 = 620.0;

/// One trouble in one line: its mark, what it is about, and the ways out. The whole text shows under the pointer, and
/// below once it is unfolded.
fn line(ui: &mut Ui, item: &Trouble) -> Option<Command> {
    let palette = colours(ui);
    let fold = ui.id().with(("whole text", &item.about));
    let mut unfolded = ui.data(|data| data.get_temp::<bool>(fold).unwrap_or(false));
    let mut asked = None;
    let narrow = ui.available_width() < ROOM_BESIDE;
    ui.horizontal(|ui| {
        let size = vec2(26.0, ui.text_style_height(&egui::TextStyle::Body));
        let (place, _) = ui.allocate_exact_size(size, egui::Sense::hover());
        let severity = if item.about.is_wrong() { Severity::Caution } else { Severity::Note };
        paint_mark(ui.painter(), palette, place, severity);
        let headline = Label::new(RichText::new(item.about.headline()).color(colour(palette.text)));
        if narrow {
            ui.add(headline.truncate()).on_hover_text(&item.text);
        } else {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                ways(ui, item, true, &mut unfolded, &mut asked);
                ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                    ui.add(headline.truncate()).on_hover_text(&item.text);
                });
            });
        }
    });
    if narrow {
        ui.horizontal_wrapped(|ui| ways(ui, item, false, &mut unfolded, &mut asked));
    }
    if unfolded {
        ui.add(Label::new(RichText::new(&item.text).color(colour(palette.text))).wrap());
    }
    ui.data_mut(|data| data.insert_temp(fold, unfolded));
    asked
}

/// The ways out as buttons, and the fold of the whole text; from the right end where the line is laid out from there.
fn ways(ui: &mut Ui, item: &Trouble, from_right: bool, unfolded: &mut bool, asked: &mut Option<Command>) {
    let mut fold = |ui: &mut Ui| {
        let (text, name) = if *unfolded { ("Less", "fold this up") } else { ("More", "show the whole text") };
        if link(ui, text, name).clicked() {
            *unfolded = !*unfolded;
        }
    };
    let mut ways = item.about.ways().to_vec();
    if from_right {
        ways.reverse();
    } else {
        fold(ui);
    }
    for (label, deal) in ways {
        if ui.button(label).clicked() {
            *asked = Some(Command::Deal(item.about.clone(), deal));
        }
    }
    if from_right {
        fold(ui);
    }
}
