//! The limits that the shop sets itself.

use egui::Ui;
use elbowroom_bending::ShopEdit;
use elbowroom_bending::forming::process::LimitFigures;
use elbowroom_bending::forming::wall::WallRule;
use elbowroom_workbench::Command;

use super::change::basis;
use super::fields::{angle, marked, number, own, row, small};
use super::model::Model;
use crate::widgets::choose;

pub(super) fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let limits = &model.shop.limits;
    let unsure = limits.basis.unsure();
    let with = |change: &dyn Fn(&mut LimitFigures)| {
        let mut figures = limits.into_figures();
        change(&mut figures);
        ShopEdit::SetLimits(figures)
    };
    let rule = row(ui, &marked("The outside wall is judged by", unsure), |ui| {
        let choices = WallRule::ALL.map(|rule| (rule, rule.name().to_owned())).to_vec();
        let shown = limits.wall_rule.name().to_owned();
        choose(ui, "Rule for the outside wall", shown, Some(&limits.wall_rule), choices)
    });
    small(ui, limits.wall_rule.source());
    let mut edits = vec![
        rule.map(|rule| with(&|it| it.wall_rule = rule)),
        row(ui, &marked("Wall that must be left", unsure), |ui| {
            let edit = |to: f64| with(&|it| it.least_wall = to / 100.0);
            number(ui, model, "Least wall", (limits.least_wall * 100.0, " %"), edit)
        }),
        row(ui, &marked("Seam at least from the outside", unsure), |ui| {
            let edit = |to| with(&|it| it.seam_from_outside = to);
            angle(ui, model, "Seam from the outside", limits.seam_from_outside, edit)
        }),
    ];
    ui.add_space(6.0);
    let hint = "Tick it when your shop or your customer has laid these down.";
    if let Some(is_own) = own(ui, "These limits are our own", "These limits are our own", unsure, hint) {
        edits.push(Some(with(&|it| it.basis = basis(is_own))));
    }
    edits.into_iter().flatten().map(Command::EditShop).collect()
}
