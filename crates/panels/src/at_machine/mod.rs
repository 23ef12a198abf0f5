//! The view for the machine: one step of the bend program over the whole window, in letters that are read from two metres.

mod draw;
mod keys;
mod model;
mod parts;
mod planned;
mod sizes;

use std::sync::Arc;

use egui::Ui;
use elbowroom_workbench::{Command, Workbench};

pub use model::{Model, Page, Tick};
pub use planned::{Planned, planned};

/// What the view remembers from frame to frame.
#[derive(Default)]
pub struct State {
    kept: Option<(u64, Arc<Planned>)>,
    /// When a step was ticked off last, seconds of the window's own clock.
    last_at: Option<f64>,
}

impl State {
    /// The plan with its sheet, worked out anew only when something changed that it depends on.
    fn planned(&mut self, workbench: &Workbench) -> Arc<Planned> {
        let key = workbench.revision();
        match &self.kept {
            Some((kept, planned)) if *kept == key => Arc::clone(planned),
            _ => {
                let planned = Arc::new(planned(workbench));
                self.kept = Some((key, Arc::clone(&planned)));
                planned
            }
        }
    }
}

/// Shows the view and says what was asked for.
pub fn show(ui: &mut Ui, workbench: &Workbench, state: &mut State) -> Vec<Command> {
    let model = Model::of(workbench, &state.planned(workbench));
    let mut commands =
        if workbench.screen().question.is_none() { keys::asked(ui, &mut state.last_at) } else { Vec::new() };
    commands.extend(draw::ui(ui, &model));
    commands
}
