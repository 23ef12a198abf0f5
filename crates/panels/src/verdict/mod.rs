//! The verdict: one sentence in large type, what this tube is on this tooling and the first thing in the
//! way. Click it to go there.

use std::fmt;

use egui::text::LayoutJob;
use egui::{Label, Rect, Sense, Stroke, Ui, vec2};
use elbowroom_bending::first_off::job::tolerance;
use elbowroom_bending::{Severity, Verdict};
use elbowroom_workbench::{Command, Judged, Sheet, Workbench};

use crate::colours::{colour, colours};
use crate::style::verdict_text;
use crate::widgets::paint_mark;

/// What the verdict shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The worst severity; `None` for sound tube on the shop that was asked for.
    pub severity: Option<Severity>,
    /// The sentence.
    pub text: String,
    /// Whether a click goes to a finding.
    pub leads_somewhere: bool,
}

impl Model {
    /// The verdict on the part that is shown.
    pub fn of(workbench: &Workbench) -> Self {
        let solved = workbench.solved();
        let Verdict { severity, text } = solved.verdict(&workbench.words());
        // Once pieces are bent the next one is what a person is about, unless it cannot be bent at all.
        let of_machine = matches!(workbench.screen().sheet, Sheet::Program | Sheet::FirstOff);
        let can_be_bent = severity != Some(Severity::Stop) && workbench.shop_missed().is_none();
        if of_machine
            && can_be_bent
            && let Some(of_piece) = of_last_piece(workbench)
        {
            return of_piece;
        }
        // A verdict on a shop that nobody asked for must not be taken for one on the shop that was.
        let (severity, text) = match workbench.shop_missed() {
            // Which one it is stands right below.
            Some(_) => (severity.max(Some(Severity::Caution)), format!("Not on your shop: {text}")),
            None => (severity, text),
        };
        Self { severity, text, leads_somewhere: !solved.findings.is_empty() }
    }
}

/// What came of the piece bent last; `None` where none was measured or there is nothing to judge it by.
pub(crate) fn of_last_piece(workbench: &Workbench) -> Option<Model> {
    let judged = workbench.judged()?;
    let Ok(Judged { plan, job }) = judged.as_ref() else { return None };
    let last = job.last()?;
    let tolerance = tolerance(plan, workbench.tolerance_choice());
    let severity = if last.within(&tolerance) == Some(true) { None } else { Some(Severity::Caution) };
    let text = last.headline(job.pieces.len(), &tolerance, workbench.part().units);
    Some(Model { severity, text, leads_somewhere: false })
}

impl fmt::Display for Model {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = self.severity.map_or("sound", Severity::word);
        write!(formatter, "[{word}] {}", self.text)
    }
}

/// The mark beside the sentence, points.
const MARK: egui::Vec2 = vec2(44.0, 32.0);
/// In a column narrower than this, points, the sentence is set smaller: at a large interface scale it is
/// large all the same.
const NARROW: f32 = 330.0;

/// A longer verdict is cut after so many lines, and shows whole under the pointer: the sheet below needs the room.
const MOST_LINES: usize = 4;

/// In a window lower than this, points, a short verdict takes one line only.
const ROOM_FOR_TWO: f32 = 480.0;

/// Draws the verdict.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let palette = colours(ui);
    let narrow = ui.available_width() < NARROW;
    let style = if narrow { egui::TextStyle::Heading } else { verdict_text() };
    // Room for two lines, so that what stands below does not jump between a short verdict and a longer one.
    let room = if ui.ctx().viewport_rect().height() < ROOM_FOR_TWO { 0.0 } else { 2.0 * ui.text_style_height(&style) };
    let size = MARK * if narrow { 0.75 } else { 1.0 };
    let beside = ui.available_width() - size.x - ui.spacing().item_spacing.x;
    // The ink is that of the label that it becomes.
    let ink = egui::Color32::PLACEHOLDER;
    let mut job = LayoutJob::simple(model.text.clone(), style.resolve(ui.style()), ink, beside);
    job.wrap.max_rows = MOST_LINES;
    let galley = ui.fonts_mut(|fonts| fonts.layout_job(job));
    let cut = galley.elided;
    let above = ((room - galley.size().y.max(size.y)) / 2.0).max(0.0);
    ui.add_space(above);
    let inner = ui.horizontal_top(|ui| {
        ui.set_min_height(room - above);
        let (place, mark) = ui.allocate_exact_size(size, Sense::hover());
        match model.severity {
            Some(severity) => paint_mark(ui.painter(), palette, place, severity),
            None => paint_sound(ui, place),
        }
        let word = model.severity.map_or("sound", Severity::word);
        mark.widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Image, true, format!("verdict: {word}")));
        let sense = if model.leads_somewhere { Sense::click() } else { Sense::hover() };
        ui.add(Label::new(galley).sense(sense))
    });
    ui.add_space(4.0);
    ui.separator();
    let sentence = inner.inner;
    let sentence = if cut { sentence.on_hover_text(&model.text) } else { sentence };
    if model.leads_somewhere && sentence.on_hover_text("Show the first finding").clicked() {
        return vec![Command::GoToFinding(0)];
    }
    Vec::new()
}

/// Sound tube: a plain ring of tube seen from its end.
fn paint_sound(ui: &Ui, place: Rect) {
    let palette = colours(ui);
    let line = Stroke::new(2.0, colour(palette.mark_outline));
    let round = place.shrink(3.0);
    ui.painter().circle(round.center(), round.height() / 2.0, colour(palette.tube), line);
    ui.painter().circle(round.center(), round.height() / 3.2, colour(palette.panel), line);
}
