//! A figure with what it rests on: what is unsure looks unsure.

use egui::{Response, RichText, Shape, Ui, pos2};
use elbowroom_bending::forming::ground::Ground;

/// The mark before a figure that rests on theory, common practice or memory.
pub const UNSURE: &str = elbowroom_bending::setup::UNSURE_MARK;

/// A figure as text, with the mark before it where it is unsure.
pub fn figure_text(text: &str, ground: Ground) -> String {
    if ground.unsure() { format!("{UNSURE}{text}") } else { text.to_owned() }
}

/// Draws a figure. What is unsure has [`UNSURE`] before it and a dotted line beneath; the pointer over it
/// tells what it rests on, and `note`.
pub fn figure(ui: &mut Ui, text: &str, ground: Ground, note: &str) -> Response {
    let response = ui.label(RichText::new(figure_text(text, ground)));
    if ground.unsure() {
        let rect = response.rect;
        let ends = [pos2(rect.left(), rect.bottom() - 1.0), pos2(rect.right(), rect.bottom() - 1.0)];
        let ink = ui.visuals().weak_text_color();
        ui.painter().extend(Shape::dotted_line(&ends, ink, 3.0, 0.75));
    }
    response.on_hover_text(told(ground, note))
}

/// What the pointer over a figure tells.
fn told(ground: Ground, note: &str) -> String {
    let basis = match ground {
        Ground::Shop => "The shop's own figure.".to_owned(),
        Ground::Published => "Published.".to_owned(),
        _ => format!("Rests on {}: your own figure replaces it.", rests_on(ground)),
    };
    if note.is_empty() { basis } else { format!("{basis} {note}") }
}

const fn rests_on(ground: Ground) -> &'static str {
    match ground {
        Ground::Memory => "memory",
        other => other.said(),
    }
}
