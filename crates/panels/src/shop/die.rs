//! The die set that is looked at.

use egui::{CollapsingHeader, Ui};
use elbowroom_bending::{DieSet, DieSetFigures, Knowledge, KnowledgeEdit, ShopEdit};
use elbowroom_workbench::Command;

use super::change::{basis, changed};
use super::clamps;
use super::fields::{angle, button, length, marked, own, row, small, text};
use super::model::Model;
use crate::widgets::heading;

pub(super) fn ui(ui: &mut Ui, model: &Model, die: &DieSet, looked_at: &mut Option<String>) -> Vec<Command> {
    let mut edits: Vec<Option<ShopEdit>> = Vec::new();
    heading(ui, &die.name, |ui| {
        if button(
            ui,
            "Remove",
            "Remove this die set",
            "Takes it out with what was found out on it; undo brings it back",
        ) {
            edits.push(Some(ShopEdit::RemoveDies(vec![die.name.clone()])));
        }
        if button(ui, "Copy", "Copy this die set", "Adds one just like it, to be changed") {
            let copy = model.shop.copy_of(die);
            *looked_at = Some(copy.name.clone());
            edits.push(Some(ShopEdit::AddDie(copy)));
        }
    });
    let with = |change: &dyn Fn(&mut DieSetFigures)| changed(model, die, change);
    let unsure = die.basis.unsure();
    edits.push(row(ui, "Name", |ui| {
        text(ui, model, "Name of the die set", &die.name, |name| with(&|it| it.name.clone_from(&name)))
    }));
    edits.push(row(ui, "For tube of OD", |ui| {
        length(ui, model, "OD of the die set", die.od, |to| with(&|it| it.od = to))
    }));
    edits.push(row(ui, "Bends to CLR", |ui| {
        length(ui, model, "CLR of the die set", die.clr, |to| with(&|it| it.clr = to))
    }));
    edits.push(row(ui, &marked("Largest angle", unsure), |ui| {
        let edit = |to| with(&|it| it.largest_angle = to);
        angle(ui, model, "Largest angle of the die set", die.largest_angle, edit)
    }));
    edits.push(row(ui, &marked("Bite that leaves no mark", unsure), |ui| {
        let edit = |to| with(&|it| it.mark_free_bite = to);
        length(ui, model, "Mark-free bite of the die set", die.mark_free_bite, edit)
    }));
    edits.push(row(ui, &marked("Bite on which it still closes", unsure), |ui| {
        let edit = |to| with(&|it| it.largest_bite = to);
        length(ui, model, "Largest bite of the die set", die.largest_bite, edit)
    }));
    let hint = "Tick it when the largest angle and both bites were found out on this die set.";
    if let Some(is_own) = own(ui, "Angle and bites are our own", "Angle and bites are our own", unsure, hint) {
        edits.push(Some(with(&|it| it.basis = basis(is_own))));
    }
    ui.add_space(6.0);
    edits.extend(clamps::ui(ui, model, die).into_iter().map(Some));
    ui.add_space(6.0);
    edits.extend(uncracked(ui, model, die).into_iter().map(Some));
    for (_, now) in edits.iter().flatten().filter_map(ShopEdit::renames_die) {
        *looked_at = Some(now.to_owned());
    }
    edits.into_iter().flatten().map(Command::EditShop).collect()
}

/// The materials that have been bent on it without a crack.
fn uncracked(ui: &mut Ui, model: &Model, die: &DieSet) -> Vec<ShopEdit> {
    heading(ui, "Bent on it without a crack", |_| ());
    small(ui, "Up to the stretch of its radius, the elongation of a test piece is then not held against a bend.");
    let noted = |material: &str| model.shop.springback_record(&die.name, material).is_some_and(|known| known.uncracked);
    let in_stock = |material: &str| model.tubes_of(die).iter().any(|tube| tube.material == material);
    let (near, far): (Vec<&String>, Vec<&String>) =
        model.materials.iter().partition(|material| in_stock(material) || noted(material));
    let tick = |ui: &mut Ui, material: &str| {
        let mut is_noted = noted(material);
        ui.checkbox(&mut is_noted, material).changed().then(|| {
            let what = Knowledge::Uncracked(is_noted);
            ShopEdit::Know(KnowledgeEdit { die: die.name.clone(), material: material.to_owned(), what })
        })
    };
    let mut edits: Vec<ShopEdit> = near.iter().filter_map(|material| tick(ui, material)).collect();
    CollapsingHeader::new(format!("Other materials ({})", far.len())).id_salt("other materials").show(ui, |ui| {
        edits.extend(far.iter().filter_map(|material| tick(ui, material)));
    });
    edits
}
