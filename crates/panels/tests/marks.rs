//! The marks of severity must be told apart without any colour.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support;
use egui::{Rect, pos2, vec2};
use elbowroom_bending::Severity;
use elbowroom_panels::widgets::paint_mark;
use elbowroom_workbench::{Palette, Theme, palette};

const SIZE: egui::Vec2 = vec2(28.0, 20.0);

/// A mark as grey values, all severities in one colour.
fn grey(theme: Theme, severity: Severity) -> Vec<f64> {
    let own = palette(theme);
    let one: Palette = Palette { note: own.stop, caution: own.stop, stop: own.stop, ..own.clone() };
    let context = egui::Context::default();
    let mut output = context.run_ui(egui::RawInput::default(), |ui| {
        paint_mark(ui.painter(), &one, Rect::from_min_size(pos2(0.0, 0.0), SIZE), severity);
    });
    output.textures_delta.clear();
    let background = elbowroom_panels::colour(one.panel);
    let picture = support::raster::draw(&context, &output, SIZE, background);
    let grey = |pixel: &[u8]| pixel.iter().map(|channel| f64::from(*channel)).sum::<f64>() / 3.0;
    picture.bytes.chunks_exact(3).map(grey).collect()
}

#[test]
fn pattern_and_shape_alone_tell_the_severities_apart() {
    for theme in [Theme::Light, Theme::Dark] {
        let marks = [Severity::Note, Severity::Caution, Severity::Stop].map(|severity| grey(theme, severity));
        for (a, b) in [(0, 1), (0, 2), (1, 2)] {
            let differing = marks[a].iter().zip(&marks[b]).filter(|(x, y)| (*x - *y).abs() > 40.0).count();
            let share = differing as f64 / marks[a].len() as f64;
            assert!(share > 0.15, "{theme:?}: marks {a} and {b} differ in {share:.2} of their pixels only");
        }
    }
}
