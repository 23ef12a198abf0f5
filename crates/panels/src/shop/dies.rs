//! The die sets: those of the tube in hand first, others folded away, and beside them the one that is looked at.

use egui::{Align, CollapsingHeader, Layout, RichText, Ui, vec2};
use elbowroom_bending::{DieSet, DieSetFigures, ShopEdit};
use elbowroom_geometry::Length;
use elbowroom_workbench::Command;

use super::die;
use super::model::Model;

/// Width of the list, points.
const LIST: f32 = 190.0;

pub(super) fn ui(ui: &mut Ui, model: &Model, looked_at: &mut Option<String>) -> Vec<Command> {
    let mut commands = Vec::new();
    ui.with_layout(Layout::left_to_right(Align::Min), |ui| {
        ui.allocate_ui_with_layout(vec2(LIST, 0.0), Layout::top_down(Align::Min), |ui| {
            ui.set_width(LIST);
            commands.extend(list(ui, model, looked_at));
        });
        ui.separator();
        ui.vertical(|ui| match model.looked_at(looked_at.as_deref()) {
            Some(die) => commands.extend(die::ui(ui, model, die, looked_at)),
            None => {
                ui.label("The shop has no die set yet. Add the first one at the left.");
            }
        });
    });
    commands
}

fn list(ui: &mut Ui, model: &Model, looked_at: &mut Option<String>) -> Vec<Command> {
    let mut commands = Vec::new();
    let here = model.looked_at(looked_at.as_deref()).map(|die| die.name.clone());
    let line = |ui: &mut Ui, die: &DieSet, looked_at: &mut Option<String>| {
        let is_used = model.used.contains(&die.name);
        let name = RichText::new(&die.name);
        let name = if is_used { name.strong() } else { name };
        let hint = format!(
            "{} tube at CLR {}{}",
            model.length(die.od),
            model.length(die.clr),
            if is_used { "; bends this part" } else { "" }
        );
        if ui.selectable_label(here.as_deref() == Some(&die.name), name).on_hover_text(hint).clicked() {
            *looked_at = Some(die.name.clone());
        }
    };
    if ui.button("Add a die set").on_hover_text("One for the tube in hand, to be changed").clicked() {
        let die = another(model);
        *looked_at = Some(die.name.clone());
        commands.push(Command::EditShop(ShopEdit::AddDie(die)));
    }
    let (fitting, others): (Vec<_>, Vec<_>) = model.shop.die_sets.iter().partition(|die| die.takes(model.tube.od));
    ui.label(RichText::new(format!("For this tube, {}", model.length(model.tube.od))).small().weak());
    if fitting.is_empty() {
        ui.label(RichText::new("None").weak());
    }
    for die in fitting {
        line(ui, die, looked_at);
    }
    if !others.is_empty() {
        let is_there = others.iter().any(|die| here.as_deref() == Some(&die.name));
        let name = format!("Other diameters ({})", others.len());
        let fold = CollapsingHeader::new(RichText::new(name).small()).id_salt("other diameters");
        // It opens for the one that is looked at, and is left to the person otherwise.
        fold.open(is_there.then_some(true)).show(ui, |ui| {
            for die in others {
                line(ui, die, looked_at);
            }
        });
    }
    if !model.untouched.is_empty() {
        ui.add_space(8.0);
        let text = format!("Remove the {} that came with the program", model.untouched.len());
        let response = ui.add(egui::Button::new(RichText::new(text).small()).wrap());
        if response
            .on_hover_text("Those that stand as they came and nothing was found out on; undo brings them back")
            .clicked()
        {
            commands.push(Command::EditShop(ShopEdit::RemoveDies(model.untouched.clone())));
        }
    }
    commands
}

/// A die set to begin from: for the tube in hand, at the first usual radius that the shop does not have for it.
fn another(model: &Model) -> DieSetFigures {
    let od = model.tube.od;
    let radii = [1.5, 2.0, 2.5, 3.0, 4.0, 5.0].map(|diameters| hundredths(od * diameters));
    let is_free = |clr: &&Length| model.shop.die_for(od, **clr).is_none();
    let clr = radii.iter().find(is_free).copied().unwrap_or(radii[0]);
    let mut die = DieSetFigures::usual(od, clr);
    die.name = model.shop.free_die_name(&die.name).into_owned();
    die
}

/// A length without the digits that multiplying leaves.
fn hundredths(length: Length) -> Length {
    Length::from_mm((length.mm() * 100.0).round() / 100.0)
}
