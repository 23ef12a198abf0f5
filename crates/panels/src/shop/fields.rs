//! The head of the page, and the fields that its leaves share.

use egui::{Align, Button, Label, Layout, RichText, Ui, vec2};
use elbowroom_bending::ShopEdit;
use elbowroom_bending::text::shown_path;
use elbowroom_geometry::units::{format_any, parse_angle, parse_length};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::Command;

use super::model::{Attempt, Model};

use crate::widgets::{FieldError, UNSURE, bare_entry_field, entry_field, length_field, named_row, shown_length, tell};

/// Width of the names beside fields, points.
const NAMES: f32 = 216.0;
/// Width of a field, points.
const FIELD: f32 = 170.0;

/// The name of the shop, its file, and what happens to the built-in one.
pub(super) fn shop(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    let named = row(ui, "Name", |ui| {
        entry_field(ui, "Name of the shop", &model.shop.name, |text| model.tried(ShopEdit::Rename(text.trim().into())))
    });
    commands.extend(named.map(Command::EditShop));
    match &model.file {
        Some(file) => {
            ui.add(Label::new(RichText::new(shown_path(file)).small().weak()).truncate());
        }
        None => small(
            ui,
            "This shop comes with the program. Your first change, its name for one, makes a shop file of your own of it, \
             comments and all; everything can be undone.",
        ),
    }
    commands
}

/// A name with a field of its width beside it.
pub(super) fn row<R>(ui: &mut Ui, name: &str, content: impl FnOnce(&mut Ui) -> R) -> R {
    named_row(ui, NAMES, name, |ui| field(ui, FIELD, content))
}

/// A place of a fixed width.
pub(super) fn field<R>(ui: &mut Ui, width: f32, content: impl FnOnce(&mut Ui) -> R) -> R {
    let size = vec2(width, ui.spacing().interact_size.y);
    ui.allocate_ui_with_layout(size, Layout::top_down(Align::Min), |ui| {
        ui.set_min_width(width);
        ui.set_max_width(width);
        content(ui)
    })
    .inner
}

/// The name beside a field, with the mark where what stands there is common practice.
pub(super) fn marked(name: &str, unsure: bool) -> String {
    if unsure { format!("{name} {UNSURE}") } else { name.to_owned() }
}

/// A field for a length.
pub(super) fn length<A: Attempt>(
    ui: &mut Ui,
    model: &Model,
    label: &str,
    now: Length,
    edit: impl Fn(Length) -> A,
) -> Option<ShopEdit> {
    length_field(ui, label, now, model.unit, |length| model.tried(edit(length)))
}

/// A field for an angle.
pub(super) fn angle<A: Attempt>(
    ui: &mut Ui,
    model: &Model,
    label: &str,
    now: Angle,
    edit: impl Fn(Angle) -> A,
) -> Option<ShopEdit> {
    entry_field(ui, label, &degrees(now), |text| model.tried(edit(parse_angle(text)?)))
}

/// An angle to a billionth of a degree, which is far below what anybody means.
fn degrees(angle: Angle) -> String {
    format!("{}°", (angle.degrees() * 1e9).round() / 1e9)
}

/// The fields of a row of a table: what is wrong in one is told beneath the row, where there is room.
#[derive(Default)]
pub(super) struct Row {
    given: Option<ShopEdit>,
    wrong: Vec<(String, FieldError)>,
}

impl Row {
    /// A field for a length.
    pub fn length<A: Attempt>(
        &mut self,
        ui: &mut Ui,
        model: &Model,
        label: &str,
        now: Length,
        edit: impl Fn(Length) -> A,
    ) {
        let take = |text: &str| model.tried(edit(parse_length(text, model.unit)?));
        self.take(ui, label, &shown_length(now, model.unit), take);
    }

    /// A field for an angle.
    pub fn angle<A: Attempt>(
        &mut self,
        ui: &mut Ui,
        model: &Model,
        label: &str,
        now: Angle,
        edit: impl Fn(Angle) -> A,
    ) {
        self.take(ui, label, &degrees(now), |text| model.tried(edit(parse_angle(text)?)));
    }

    /// A field for a text.
    pub fn text<A: Attempt>(&mut self, ui: &mut Ui, model: &Model, label: &str, now: &str, edit: impl Fn(String) -> A) {
        self.take(ui, label, now, |text| model.tried(edit(text.trim().to_owned())));
    }

    fn take(&mut self, ui: &mut Ui, label: &str, shown: &str, take: impl Fn(&str) -> Result<ShopEdit, FieldError>) {
        let (given, error) = bare_entry_field(ui, label, shown, take);
        self.give(given);
        self.wrong.extend(error.map(|error| (label.to_owned(), error)));
    }

    /// What something else in the row asks for.
    pub fn give(&mut self, edit: Option<ShopEdit>) {
        self.given = self.given.take().or(edit);
    }

    /// Tells what is wrong beneath the row, and gives what was asked for.
    pub fn end(self, ui: &mut Ui) -> Option<ShopEdit> {
        for (label, error) in &self.wrong {
            ui.label(RichText::new(format!("{label}:")).color(ui.visuals().error_fg_color));
            tell(ui, error);
        }
        self.given
    }
}

/// A field for a plain number, such as a share in hundredths with its sign behind it.
pub(super) fn number<A: Attempt>(
    ui: &mut Ui,
    model: &Model,
    label: &str,
    (now, sign): (f64, &str),
    edit: impl Fn(f64) -> A,
) -> Option<ShopEdit> {
    let shown = format!("{}{sign}", format_any((now * 1e9).round() / 1e9));
    entry_field(ui, label, &shown, |text| {
        let bare = text.trim().trim_end_matches(sign.trim()).trim();
        match bare.parse() {
            Ok(number) => model.tried(edit(number)),
            Err(_) => Err(FieldError::Refused("Type a plain number, such as 1.5.".to_owned())),
        }
    })
}

/// A text that is called `label`.
pub(super) fn text<A: Attempt>(
    ui: &mut Ui,
    model: &Model,
    label: &str,
    now: &str,
    edit: impl Fn(String) -> A,
) -> Option<ShopEdit> {
    entry_field(ui, label, now, |text| model.tried(edit(text.trim().to_owned())))
}

/// Whether figures are the shop's own, to be said by a tick that is called `label` to a screen reader.
pub(super) fn own(ui: &mut Ui, text: &str, label: &str, unsure: bool, hint: &str) -> Option<bool> {
    let mut is_own = !unsure;
    let response = ui.checkbox(&mut is_own, text).on_hover_text(hint);
    response.widget_info(|| egui::WidgetInfo::selected(egui::WidgetType::Checkbox, true, is_own, label));
    response.changed().then_some(is_own)
}

/// A small button that is called `label` to a screen reader.
pub(super) fn button(ui: &mut Ui, text: &str, label: &str, hint: &str) -> bool {
    let response = ui.add(Button::new(text)).on_hover_text(hint);
    let label = label.to_owned();
    response.widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Button, true, &label));
    response.clicked()
}

/// A line of small print.
pub(super) fn small(ui: &mut Ui, text: impl Into<String>) {
    ui.add(Label::new(RichText::new(text.into()).small().weak()).wrap());
}
