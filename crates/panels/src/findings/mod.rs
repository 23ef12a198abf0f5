//! The findings, worst first: what was measured, what it may be, what would cure it, as buttons. A click
//! goes to the place.

mod card;
mod model;

use egui::{RichText, Ui};
use elbowroom_bending::{Edit, Severity};
use elbowroom_workbench::Command;

use crate::widgets::{heading, legend, link, mark};

pub use model::{Item, Model};

/// Findings that are drawn before a person asks for all of them.
const FIRST: usize = 30;

/// What the findings remember from frame to frame.
#[derive(Clone, Debug, Default)]
pub struct State {
    /// Whether all are shown, however many.
    all: bool,
    /// Whether the pointer was over one, so that leaving is told once.
    was_hovered: bool,
    /// The cure that was pointed at, likewise.
    pointed: Option<Edit>,
}

impl State {
    /// How many findings the next frame draws.
    pub fn most(&self) -> usize {
        if self.all { usize::MAX } else { FIRST }
    }
}

/// Draws the findings.
pub fn ui(ui: &mut Ui, model: &Model, state: &mut State) -> Vec<Command> {
    ui.add_space(8.0);
    heading(ui, "Findings", |ui| counts(ui, model));
    if model.items.is_empty() {
        ui.label(RichText::new("Nothing found that stands in the way on this tooling.").weak());
        state.all = false;
        let left = state.pointed.take().map(|_| Command::PointAtChange(None));
        return left.into_iter().collect();
    }
    let mut commands = Vec::new();
    let hovered_before = std::mem::take(&mut state.was_hovered);
    let mut pointed = None;
    let shown = model.items.len().min(state.most());
    for item in &model.items[..shown] {
        let drawn = card::card(ui, item);
        commands.extend(drawn.commands);
        pointed = drawn.pointed.or(pointed);
        if drawn.hovered {
            state.was_hovered = true;
            if item.target.is_some() && item.target != model.hover {
                commands.push(Command::Hover(item.target));
            }
        }
    }
    if hovered_before && !state.was_hovered && model.hover.is_some() {
        commands.push(Command::Hover(None));
    }
    if pointed != state.pointed {
        commands.push(Command::PointAtChange(pointed.clone()));
        state.pointed = pointed;
    }
    let rest = model.counts.iter().sum::<usize>() - shown;
    if rest > 0 && link(ui, &format!("Show {rest} more"), "show all findings").clicked() {
        state.all = true;
    }
    legend(ui, model.unsure());
    commands
}

/// How many there are of each severity, worst first, from the right.
fn counts(ui: &mut Ui, model: &Model) {
    for severity in [Severity::Note, Severity::Caution, Severity::Stop] {
        let count = model.count(severity);
        if count > 0 {
            let words = counted(count, severity);
            ui.label(count.to_string()).on_hover_text(&words);
            mark(ui, severity, 16.0).on_hover_text(words);
        }
    }
}

fn counted(count: usize, severity: Severity) -> String {
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {}{plural}", severity.word())
}
