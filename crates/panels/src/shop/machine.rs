//! The bender.

use egui::Ui;
use elbowroom_bending::{Basis, Hand, MachineFigures, RotationSetting, ShopEdit};
use elbowroom_workbench::Command;

use super::fields::{angle, length, marked, number, own, row, small, text};
use super::model::Model;

pub(super) fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let machine = &model.shop.machine;
    let unsure = machine.basis.unsure();
    let with = |change: &dyn Fn(&mut MachineFigures)| {
        let mut figures = machine.clone().into_figures();
        change(&mut figures);
        ShopEdit::SetMachine(figures)
    };
    let mut edits = vec![
        row(ui, "Name", |ui| {
            text(ui, model, "Name of the machine", &machine.name, |name| with(&|it| it.name.clone_from(&name)))
        }),
        row(ui, &marked("Longest blank", unsure), |ui| {
            let edit = |to| with(&|it| it.longest_blank = to);
            length(ui, model, "Longest blank of the machine", machine.longest_blank, edit)
        }),
        row(ui, &marked("Holds behind the last bend", unsure), |ui| {
            length(ui, model, "Hold of the machine", machine.tail_hold, |to| with(&|it| it.tail_hold = to))
        }),
        row(ui, &marked("Largest angle", unsure), |ui| {
            let edit = |to| with(&|it| it.largest_angle = to);
            angle(ui, model, "Largest angle of the machine", machine.largest_angle, edit)
        }),
        row(ui, &marked("Square end needs", unsure), |ui| {
            let now = (machine.square_end_diameters, " × OD");
            let edit = |to| with(&|it| it.square_end_diameters = to);
            number(ui, model, "Straight that a square end needs", now, edit)
        }),
    ];
    small(ui, "The straight between a bend and a free end below which the end face is not square after bending.");
    ui.add_space(6.0);
    for (hand, name) in [(Hand::Right, "Bends to the right, seen from the chuck"), (Hand::Left, "Bends to the left")] {
        if ui.radio(machine.hand == hand, name).clicked() && machine.hand != hand {
            edits.push(Some(with(&|it| it.hand = hand)));
        }
    }
    ui.add_space(6.0);
    for (rotation, name, hint) in [
        (
            RotationSetting::Turn,
            "Rotation is set as a turn from where the tube stands",
            "The dial of the chuck goes back to nought for each bend.",
        ),
        (
            RotationSetting::Reading,
            "Rotation is set as a reading of the dial",
            "The dial stays as it is from bend to bend: the turns add up on it.",
        ),
    ] {
        let response = ui.radio(machine.rotation == rotation, name).on_hover_text(hint);
        if response.clicked() && machine.rotation != rotation {
            edits.push(Some(with(&|it| it.rotation = rotation)));
        }
    }
    ui.add_space(6.0);
    let hint = "Tick it when lengths and angles above were measured on your machine or stand in its papers.";
    if let Some(is_own) =
        own(ui, "These figures are of our own machine", "These figures are of our own machine", unsure, hint)
    {
        let basis = if is_own { Basis::Shop } else { Basis::CommonPractice };
        edits.push(Some(with(&|it| it.basis = basis)));
    }
    edits.into_iter().flatten().map(Command::EditShop).collect()
}
