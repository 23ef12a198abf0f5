//! The sections of the bench, one function each.

use egui::{Button, CollapsingHeader, RichText, Ui, WidgetInfo, WidgetType};
use elbowroom_bending::text::capital;
use elbowroom_bending::text::shown_path;
use elbowroom_bending::{Edit, End, Knowledge, KnowledgeEdit, Seam, Tube};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::{LengthUnit, format_length};
use elbowroom_workbench::Command;

use super::describe::{seam_text, tube_text};
use super::model::{DieChoice, Fit, Model, mark};
use crate::widgets::{FieldError, choose, entry_field, heading, length_field, named_row};

/// Width of the names beside the fields, points.
const NAMES: f32 = 84.0;

/// A name with something to change beside it.
fn row<R>(ui: &mut Ui, name: &str, content: impl FnOnce(&mut Ui) -> R) -> R {
    named_row(ui, NAMES, name, content)
}

/// A text that is taken as it is.
fn plain(text: &str) -> Result<String, FieldError> {
    Ok(text.trim().to_owned())
}

pub(super) fn part(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut edits = Vec::new();
    heading(ui, "Part", |_| ());
    let name = row(ui, "Name", |ui| {
        entry_field(ui, "Part name", &model.name, |text| match plain(text)? {
            name if name.is_empty() => Err(FieldError::Refused("A part needs a name.".to_owned())),
            name => Ok(name),
        })
    });
    edits.extend(name.map(Edit::Rename));
    edits.extend(row(ui, "Note", |ui| entry_field(ui, "Part note", &model.note, plain)).map(Edit::SetNote));
    let units = row(ui, "Units", |ui| {
        let choices = LengthUnit::ALL.map(|unit| (unit, unit.name().to_owned())).to_vec();
        choose(ui, "Units shown", model.unit.name().to_owned(), Some(&model.unit), choices)
    });
    edits.extend(units.map(Edit::ShowUnits));
    edits.into_iter().map(Command::Edit).collect()
}

pub(super) fn tube(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let now = &model.tube;
    heading(ui, "Tube", |_| ());
    let with = |od: Length, wall: Length, material: &str, seam: Seam| {
        Tube::new(od, wall, material, seam)
            .map_err(|refusal| FieldError::Refused(format!("{}.", refusal.said(model.unit))))
    };
    let stock = row(ui, "In stock", |ui| {
        let choices = model.tubes.iter().map(|tube| (tube.clone(), tube_text(tube, model.unit))).collect();
        let known = model.tubes.contains(now);
        let shown = if known { tube_text(now, model.unit) } else { "None of the shop's tubes".to_owned() };
        choose(ui, "Tube in stock", shown, Some(now), choices)
    });
    let size = row(ui, "Size", |ui| {
        let now_listed = model.sizes.iter().find(|(tube, _)| tube == now);
        let shown = now_listed.map_or("No standard size".to_owned(), |(_, text)| text.clone());
        choose(ui, "Standard size", shown, Some(now), model.sizes.clone())
    });
    let od = row(ui, "OD", |ui| {
        length_field(ui, "Tube OD", now.od, model.unit, |od| with(od, now.wall, &now.material, now.seam))
    });
    let wall = row(ui, "Wall", |ui| {
        length_field(ui, "Tube wall", now.wall, model.unit, |wall| with(now.od, wall, &now.material, now.seam))
    });
    let of_material = |material: String| now.of_material(&material);
    let typed = row(ui, "Material", |ui| {
        entry_field(ui, "Material", &now.material, |text| match plain(text)? {
            material if material.is_empty() => {
                Err(FieldError::Refused("Name the material, such as 304 stainless.".to_owned()))
            }
            material => Ok(of_material(material)),
        })
    });
    let picked = row(ui, "", |ui| {
        let choices = model.materials.iter().map(|name| (name.clone(), name.clone())).collect();
        choose(ui, "Known materials", "Known materials".to_owned(), Some(&now.material), choices).map(of_material)
    });
    let seam = row(ui, "Seam", |ui| {
        let both = [Seam::Welded, Seam::Seamless];
        let clicked = both
            .into_iter()
            .filter(|seam| ui.radio(now.seam == *seam, seam_text(*seam)).clicked() && now.seam != *seam);
        clicked.last().map(|seam| now.closed_by(seam))
    });
    [stock, size, od, wall, typed, picked, seam]
        .into_iter()
        .flatten()
        .map(|tube| Command::Edit(Edit::SetTube(tube)))
        .collect()
}

pub(super) fn die(ui: &mut Ui, model: &Model) -> Vec<Command> {
    heading(ui, "Die set", |_| ());
    let mut chosen = None;
    let mut with_radius = None;
    let left = match model.taken.as_slice() {
        _ if model.die.is_some() => "Left to the shop".to_owned(),
        [] => "Left to the shop: none fits".to_owned(),
        taken => format!("Left to the shop: {}", taken.join(", ")),
    };
    if ui.radio(model.die.is_none(), left).clicked() && model.die.is_some() {
        chosen = Some(None);
    }
    let mut last = None;
    let line = |ui: &mut Ui, die: &DieChoice| {
        let is_now = model.die.as_ref() == Some(&die.name);
        let text = RichText::new(&die.name);
        let text = if die.fit == Fit::Nothing { text.weak() } else { text };
        let response = ui.radio(is_now, text).on_hover_text(format!("{}: {}", die.name, die.size));
        (response.clicked() && !is_now).then(|| Some(die.name.clone()))
    };
    let here = model.dies.iter().take_while(|die| die.fit != Fit::Nothing).count();
    let (near, far) = model.dies.split_at(here);
    for die in near {
        if last != Some(die.fit) {
            ui.label(RichText::new(capital(die.fit.words())).small().weak());
            last = Some(die.fit);
        }
        chosen = line(ui, die).or(chosen);
        if let Some(clr) = &die.clr_for_all {
            let text = format!("Every bend at CLR {clr}");
            let button = ui.horizontal(|ui| {
                ui.add_space(ui.spacing().icon_width + ui.spacing().icon_spacing);
                ui.small_button(text).on_hover_text(format!("Takes {} and its radius, in one step", die.name))
            });
            let label = format!("{}, and every bend at CLR {clr}", die.name);
            button.inner.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
            if button.inner.clicked() {
                with_radius = Some(die.take_with_its_radius(clr));
            }
        }
    }
    if !far.is_empty() {
        // The one that is chosen is never folded away.
        let is_far = far.iter().any(|die| model.die.as_ref() == Some(&die.name));
        let name = RichText::new(format!("Other diameters ({})", far.len())).small();
        let fold = CollapsingHeader::new(name).id_salt("die sets of other diameters");
        fold.open(is_far.then_some(true)).show(ui, |ui| {
            for die in far {
                chosen = line(ui, die).or(chosen.take());
            }
        });
    }
    if model.dies.is_empty() {
        ui.label("The shop has no die set. Choose another shop file below.");
    }
    let chosen = chosen.map(Edit::ChooseDie).or(with_radius);
    let mut commands: Vec<Command> = chosen.map(Command::Edit).into_iter().collect();
    for (die, uncracked) in &model.uncracked {
        let mut noted = *uncracked;
        let text = format!("{} has bent on {die} without a crack", model.tube.material);
        let box_ = ui.checkbox(&mut noted, text).on_hover_text(
            "Note it when a bend at the die's radius came off sound: up to that stretch the elongation of a test piece \
             is then no longer held against a bend. Kept in the shop file.",
        );
        if box_.changed() {
            let (die, material) = (die.clone(), model.tube.material.clone());
            commands.push(Command::EditShop(KnowledgeEdit { die, material, what: Knowledge::Uncracked(noted) }.into()));
        }
    }
    commands
}

pub(super) fn clamp(ui: &mut Ui, model: &Model) -> Vec<Command> {
    heading(ui, "Clamp", |_| ());
    let mut chosen = None;
    if ui.radio(model.clamp.is_none(), "The longest of the die set").clicked() && model.clamp.is_some() {
        chosen = Some(None);
    }
    for clamp in &model.clamps {
        let length = format_length(clamp.length, model.unit, model.unit.decimals());
        let is_now = model.clamp == Some(clamp.length);
        if ui.radio(is_now, format!("{length}, {}", clamp.proved)).clicked() && !is_now {
            chosen = Some(Some(clamp.length));
        }
    }
    let known = |length: Length| model.clamps.iter().any(|clamp| clamp.length == length);
    if let Some(length) = model.clamp.filter(|length| !known(*length)) {
        let length = format_length(length, model.unit, model.unit.decimals());
        let ink = ui.visuals().error_fg_color;
        ui.label(RichText::new(format!("{length} is chosen, and no die set in use has such a clamp.")).color(ink));
    }
    chosen.map(|clamp| Command::Edit(Edit::ChooseClamp(clamp))).into_iter().collect()
}

pub(super) fn stock(ui: &mut Ui, model: &Model) -> Vec<Command> {
    heading(ui, "Extra stock", |_| ());
    let mut edits = Vec::new();
    let ends = [
        ("Start", "Extra stock at the start", End::Start, model.stock.lead, model.trim(0)),
        ("Finish", "Extra stock at the finish", End::Finish, model.stock.tail, model.trim(1)),
    ];
    for (name, label, end, now, trim) in ends {
        let given = row(ui, name, |ui| {
            length_field(ui, label, now, model.unit, |length| {
                let sound = length.is_finite() && length >= Length::ZERO;
                if sound { Ok(length) } else { Err(FieldError::Refused("Extra stock is 0 or more.".to_owned())) }
            })
        });
        edits.extend(given.map(|length| Edit::SetStock(end, length)));
        ui.label(
            RichText::new(format!("Cut off here after bending, with what clamp or chuck needs: {trim}")).small().weak(),
        );
    }
    edits.into_iter().map(Command::Edit).collect()
}

pub(super) fn machine(ui: &mut Ui, model: &Model) -> Vec<Command> {
    heading(ui, "Machine", |_| ());
    ui.label(format!("{}{}", model.machine, mark(model.machine_basis)));
    egui::Grid::new("machine facts").num_columns(2).show(ui, |ui| {
        for fact in &model.facts {
            ui.label(RichText::new(fact.name).weak());
            ui.label(&fact.value);
            ui.end_row();
        }
    });
    ui.label(
        RichText::new("A bender is a power press with a swinging arm. Its maker's rules and local law come first.")
            .small()
            .weak(),
    );
    Vec::new()
}

pub(super) fn shop(ui: &mut Ui, model: &Model) -> Vec<Command> {
    heading(ui, "Shop file", |_| ());
    let mut commands = Vec::new();
    ui.label(&model.shop);
    let file = model.shop_file.as_ref().map_or("Built in".to_owned(), |file| shown_path(file));
    ui.label(RichText::new(file).small().weak());
    ui.horizontal_wrapped(|ui| {
        let hint = "Its machine, die sets, clamps, tubes and limits, on a page of their own";
        if ui.button("Set up the shop").on_hover_text(hint).clicked() {
            commands.push(Command::ToggleShop);
        }
        if ui.button("Choose another shop file").clicked() {
            commands.push(Command::AskShop);
        }
        if ui
            .button("Use my own shop")
            .on_hover_text("Your own shop file in the configuration folder, or the built-in shop where there is none")
            .clicked()
        {
            commands.push(Command::UseOwnShop);
        }
        let make = ui
            .add_enabled(model.can_make_shop, Button::new("Make a shop file of my own"))
            .on_hover_text("Writes the built-in shop into your configuration folder, for you to change")
            .on_disabled_hover_text(
                "You have a shop file of your own already, or no configuration folder to put it in",
            );
        if make.clicked() {
            commands.push(Command::MakeOwnShop);
        }
    });
    commands
}
