//! What is the shop's own, and what is still common practice: each leads to where it is changed.

use egui::{Grid, RichText, Ui};
use elbowroom_bending::text::capital;

use super::fields::small;
use super::leaf::Leaf;
use super::model::Model;
use crate::widgets::{UNSURE, link};

/// Gives the leaf that somebody wants to go to, and the die set there.
pub(super) fn ui(ui: &mut Ui, model: &Model) -> Option<(Leaf, Option<String>)> {
    let unsure = model.unsure_count();
    let all = model.rests.len();
    ui.label(match unsure {
        0 => "Everything this shop says is its own.".to_owned(),
        _ => format!(
            "{} of {all} are the shop's own. The others are marked {UNSURE} wherever they are used.",
            all - unsure
        ),
    });
    small(ui, "A figure becomes your own when you say so beside it; springback does when trial bends are entered.");
    ui.add_space(4.0);
    let mut place = None;
    Grid::new("rests").num_columns(3).striped(true).spacing([18.0, 4.0]).show(ui, |ui| {
        for (index, rest) in model.rests.iter().enumerate() {
            let label = format!("Go to {}: {}", rest.what, rest.figures);
            if ui.push_id(index, |ui| link(ui, &rest.what, &label)).inner.clicked() {
                place = Some(rest.place.clone());
            }
            ui.label(rest.figures);
            let ground = capital(rest.ground.said());
            ui.label(if rest.ground.unsure() {
                RichText::new(format!("{UNSURE} {ground}"))
            } else {
                RichText::new(ground).strong()
            });
            ui.end_row();
        }
    });
    place
}
