//! Why: a finding drawn live with its numbers, and what they mean: the clamp on this tube, or what else it is about.

mod drawn;
mod gauge;
mod model;
mod paint;
mod picture;
mod sketch;
mod words;

pub use gauge::{Gauge, Zone};
pub use model::{Case, Chosen, Explained, Model};
pub use picture::Picture;
pub use sketch::{Jaws, Run, Sketch};

use egui::{RichText, Ui};
use elbowroom_workbench::Command;

use crate::widgets::{UNSURE, heading, legend, mark};

/// Shows the panel. It asks for nothing: what it shows is chosen elsewhere.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    if let Some(explained) = &model.explained {
        return finding(ui, explained);
    }
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
        ui.label(RichText::new(sketch.jaws.view()).small().weak());
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

/// A finding that is not about the clamp: its drawing, what was found, and why that matters.
fn finding(ui: &mut Ui, explained: &Explained) -> Vec<Command> {
    heading(ui, &format!("Why: {}", explained.place), |ui| {
        ui.label(explained.severity.word());
        mark(ui, explained.severity, 16.0);
    });
    ui.label(RichText::new(explained.title).small().weak());
    if let Some(picture) = &explained.picture {
        drawn::picture(ui, picture, explained.severity);
    }
    ui.label(&explained.text);
    ui.label(&explained.matters);
    let drawing = explained.picture.as_ref().map(ToString::to_string).unwrap_or_default();
    legend(ui, [&explained.text, &drawing].into_iter().any(|text| text.contains(UNSURE)));
    Vec::new()
}
