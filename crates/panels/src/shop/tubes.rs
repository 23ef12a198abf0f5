//! The tubes in stock.

use egui::{Button, RichText, Ui};
use elbowroom_bending::{Seam, ShopEdit, Tube, TubeFigures};
use elbowroom_workbench::Command;

use super::fields::{Row, button, field, small};
use super::model::Model;
use crate::bench::{seam_text, sizes, tube_text};
use crate::widgets::choose;

/// Widths of the columns, points.
const COLUMNS: [f32; 4] = [110.0, 110.0, 200.0, 120.0];

pub(super) fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut edits: Vec<Option<ShopEdit>> = Vec::new();
    small(ui, "What is in stock can be chosen on the bench. Any other tube can be typed there.");
    ui.horizontal(|ui| {
        let is_there = model.shop.tubes.contains(&model.tube);
        let text = format!("Add the tube in hand: {}", tube_text(&model.tube, model.unit));
        let add = ui.add_enabled(!is_there, Button::new(text)).on_disabled_hover_text("The tube in hand is in stock");
        if add.clicked() {
            edits.push(Some(ShopEdit::AddTube(model.tube.clone().into_figures())));
        }
    });
    ui.horizontal(|ui| {
        ui.label("Add a standard size:");
        let choices = sizes(&model.tube, model.unit).into_iter().filter(|(tube, _)| !model.shop.tubes.contains(tube));
        let chosen = field(ui, 320.0, |ui| {
            choose(ui, "Add a standard size", "Standard sizes".to_owned(), None, choices.collect())
        });
        edits.extend(chosen.map(|tube| Some(ShopEdit::AddTube(tube.into_figures()))));
    });
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        for (head, width) in ["OD", "Wall", "Material", "Seam"].into_iter().zip(COLUMNS) {
            field(ui, width, |ui| ui.label(RichText::new(head).small().weak()));
        }
    });
    for (index, tube) in model.shop.tubes.iter().enumerate() {
        ui.push_id(("tube", index), |ui| edits.push(row(ui, model, index, tube)));
    }
    edits.into_iter().flatten().map(Command::EditShop).collect()
}

fn row(ui: &mut Ui, model: &Model, index: usize, tube: &Tube) -> Option<ShopEdit> {
    let of = |what: &str| format!("{what} of tube {}", index + 1);
    let with = |change: &dyn Fn(&mut TubeFigures)| {
        let mut to = tube.clone().into_figures();
        change(&mut to);
        ShopEdit::ChangeTube { was: tube.clone(), to }
    };
    let mut row = Row::default();
    ui.horizontal_top(|ui| {
        field(ui, COLUMNS[0], |ui| row.length(ui, model, &of("OD"), tube.od, |to| with(&|it| it.od = to)));
        field(ui, COLUMNS[1], |ui| row.length(ui, model, &of("Wall"), tube.wall, |to| with(&|it| it.wall = to)));
        field(ui, COLUMNS[2], |ui| {
            row.text(ui, model, &of("Material"), &tube.material, |to| with(&|it| it.material.clone_from(&to)));
        });
        let seam = field(ui, COLUMNS[3], |ui| {
            let choices = [Seam::Welded, Seam::Seamless].map(|seam| (seam, seam_text(seam).to_owned())).to_vec();
            choose(ui, &of("Seam"), seam_text(tube.seam).to_owned(), Some(&tube.seam), choices)
        });
        row.give(seam.and_then(|seam| model.tried(with(&|it| it.seam = seam)).ok()));
        let label = format!("Remove tube {}", index + 1);
        let gone = button(ui, "×", &label, "Take this tube out of stock");
        row.give(gone.then(|| ShopEdit::RemoveTube(tube.clone())));
    });
    row.end(ui)
}
