//! Why: the clamp on this tube, drawn live with its numbers, and what they mean.

mod gauge;
mod model;
mod paint;
mod sketch;
mod words;

pub use gauge::{Gauge, Zone};
pub use model::{Case, Chosen, Model};
pub use sketch::{Run, Sketch};

use egui::{RichText, Ui};
use elbowroom_workbench::Command;

use crate::widgets::{heading, legend, mark};

/// Shows the panel. It asks for nothing: what it shows is chosen elsewhere.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let Some(case) = &model.case else {
        heading(ui, "Why", |_| ());
        ui.label("A tube without a bend needs no clamp. Bend it, and the clamp is shown here.");
        return Vec::new();
    };
    heading(ui, &format!("Why: the clamp of bend {}", case.bend + 1), |ui| {
        if let Some(severity) = case.severity {
            ui.label(severity.word());
            mark(ui, severity, 16.0);
        }
    });
    let because = match case.chosen {
        Chosen::Selected => "The bend that is selected.",
        Chosen::FirstFinding => "The bend of the first finding. Select another to see its clamp.",
        Chosen::LeastRoom => "The bend with the least room to spare. Select another to see its clamp.",
    };
    ui.label(RichText::new(because).small().weak());
    if let Some(sketch) = &case.sketch {
        paint::sketch(ui, sketch, case.bite_severity(), model.unit);
    }
    for gauge in &case.gauges {
        paint::gauge(ui, gauge);
    }
    for sentence in &case.sentences {
        ui.label(sentence);
    }
    legend(ui, case.unsure());
    Vec::new()
}
