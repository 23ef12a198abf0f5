//! Which of the shop's tooling makes the part: every die set and clamp from either end, best first, a click
//! takes it. Below it, what the drawing would have to be on the tooling that is chosen.

mod background;
mod model;
mod rows;

use std::sync::Arc;

use egui::{Label, RichText, Ui};
use elbowroom_bending::compare::COMPOUND_CUT_ADVICE;
use elbowroom_workbench::{Command, Workbench};

use crate::program::bent_first;
use crate::style::heading_text;
use crate::widgets::{heading, legend, mark};
use background::Background;
pub use model::{Model, Need, Row};

/// What the comparison remembers from frame to frame.
#[derive(Default)]
pub struct State {
    kept: Option<(u64, Arc<Model>)>,
    running: Option<Background>,
}

impl State {
    /// The model of this very revision, if there is one: worked out at once where that is quick, taken over
    /// from the background where that has finished.
    fn model(&mut self, workbench: &Workbench) -> Option<Arc<Model>> {
        let key = workbench.revision();
        if let Some(running) = &self.running {
            if running.key != key {
                // The part has changed; what is being worked out is of no use any more.
                self.running = None;
            } else if let Some(model) = running.finished() {
                self.kept = Some((key, Arc::new(model)));
                self.running = None;
            }
        }
        if let Some((_, model)) = self.kept.as_ref().filter(|(kept, _)| *kept == key) {
            return Some(Arc::clone(model));
        }
        self.kept = None;
        if Model::is_quick(workbench.part(), workbench.shop()) {
            let model = Arc::new(Model::of(workbench));
            self.kept = Some((key, Arc::clone(&model)));
            return Some(model);
        }
        None
    }
}

/// Draws the comparison of a workbench.
pub fn show(ui: &mut Ui, workbench: &Workbench, state: &mut State) -> Vec<Command> {
    heading(ui, "Which tooling makes it", |_| ());
    let Some(model) = state.model(workbench) else {
        wait(ui, workbench, state);
        return Vec::new();
    };
    let mut commands = rows::ui(ui, &model);
    if model.only_compound_cut {
        ui.add(Label::new(COMPOUND_CUT_ADVICE).wrap());
    }
    if !model.other_diameters.is_empty() {
        let text = format!("For other diameters: {}.", model.other_diameters.join(", "));
        ui.add(Label::new(RichText::new(text).small().weak()).wrap());
    }
    ui.add_space(8.0);
    heading(ui, "What the drawing would have to be", |_| ());
    commands.extend(bent_first(ui, model.from));
    ui.label(RichText::new(&model.chosen).small().weak());
    needs(ui, &model);
    legend(ui, model.unsure());
    commands
}

/// A part that takes long: worked out aside when asked for, and let go of when that is asked for.
fn wait(ui: &mut Ui, workbench: &Workbench, state: &mut State) {
    if state.running.is_some() {
        ui.horizontal(|ui| {
            ui.spinner();
            ui.label("Trying every tooling\u{2026}");
            if ui.button("Stop trying").clicked() {
                state.running = None;
            }
        });
        return;
    }
    let bends = workbench.solved().bends.len();
    ui.label(format!(
        "{bends} bends on every die set and clamp take a while. It is worked out aside when you ask for it."
    ));
    if ui.button("Try every tooling").clicked() {
        state.running = Some(Background::start(workbench, ui.ctx()));
    }
}

/// Least height of a line of text, points: nothing in it is clicked.
const LINE: f32 = 16.0;

/// What each bend asks of the drawing.
fn needs(ui: &mut Ui, model: &Model) {
    const SHOWN: usize = 60;
    for text in &model.told {
        ui.add(Label::new(text).wrap());
    }
    if model.needs.is_empty() {
        return;
    }
    for need in model.needs.iter().take(SHOWN) {
        ui.add_space(2.0);
        ui.spacing_mut().interact_size.y = LINE;
        ui.label(RichText::new(format!("Bend {}", need.bend)).text_style(heading_text()));
        for (severity, text) in
            [(need.straight_wrong, &need.straight), (None, &need.before), (need.held_wrong, &need.held)]
        {
            ui.horizontal_top(|ui| {
                if let Some(severity) = severity {
                    mark(ui, severity, 13.0);
                }
                ui.add(Label::new(text).wrap());
            });
        }
    }
    if let Some(rest) = model.needs.len().checked_sub(SHOWN).filter(|rest| *rest > 0) {
        ui.label(RichText::new(format!("And {rest} more bends; the command line lists them all.")).small().weak());
    }
}
